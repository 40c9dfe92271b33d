import {
  bookFormat,
  buildScene,
  curveTemplates,
  drawDxf,
  drawViews,
  readParts,
  templatePages,
} from '@kerfbook/drawing';
import { saveText, type Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { openAndSet } from '../open-set.ts';
import { cellOf } from '../values.ts';
import type { Command } from './command.ts';

const FORMATS = ['json', 'svg', 'dxf'] as const;
type FormatName = (typeof FORMATS)[number];

/** What of the drawing an SVG shows; a DXF has all of it, views side by side. A pattern is of one part, at true size. */
const VIEWS = ['plan', 'front', 'end', 'whole', 'apart', 'pattern'] as const;
type ViewName = (typeof VIEWS)[number];

/** `export`: a workbook, or the drawing of its parts, in an open format. */
export const exportCommand: Command = {
  name: 'export',
  usage:
    'export FILE --to json|svg|dxf --out PATH [--force] [--set name=entry]… [--view plan|front|end|whole|apart|pattern] [--part NAME]',
  does: 'writes the workbook, or the drawing of its parts, to a file',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      to: { type: 'string' },
      out: { type: 'string' },
      force: { type: 'boolean' },
      set: { type: 'string', multiple: true },
      view: { type: 'string' },
      part: { type: 'string' },
    });
    const to = formatOf(values.to);
    const view = viewOf(values.view);
    const { out, part } = values;
    if (view === 'pattern' && to !== 'svg') {
      throw new Misuse(`A pattern takes --to svg; it got "${to}".`);
    }
    if (part !== undefined && !(to === 'svg' && view === 'pattern')) {
      throw new Misuse('--part says of which part a pattern is: it takes --to svg --view pattern.');
    }
    if (out === undefined || out === '')
      throw new Misuse('--out says where the file goes; it is missing.');
    const opened = await openAndSet('export', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    for (const { cell, says } of refused) io.err(`${cell} ${says}`);
    const made =
      to === 'json'
        ? { text: saveText(book.document()), says: [] }
        : to === 'dxf'
          ? drafted(book)
          : view === 'pattern'
            ? patternOf(book, part)
            : drawn(book, view);
    for (const says of made.says) io.err(says);
    if (made.text === undefined) return 1;
    const trouble = await io.write(out, made.text, values.force === true);
    if (trouble !== undefined) {
      io.err(trouble);
      return 2;
    }
    return refused.length + made.says.length > 0 ? 1 : 0;
  },
};

function formatOf(word: string | undefined): FormatName {
  const found = FORMATS.find((one) => one === word);
  if (found !== undefined) return found;
  const takes = `--to takes ${FORMATS.join(', ')}`;
  throw new Misuse(word === undefined ? `${takes}; it is missing.` : `${takes}; it got "${word}".`);
}

function viewOf(word: string | undefined): ViewName {
  if (word === undefined) return 'plan';
  const found = VIEWS.find((one) => one === word);
  if (found === undefined) {
    throw new Misuse(`--view takes ${VIEWS.join(', ')}; it got "${word}".`);
  }
  return found;
}

interface Made {
  readonly text: string | undefined;
  readonly says: readonly string[];
}

/** Larger than any part: what is printed from a file of its own is not cut into sheets, mm. */
const WHOLE = { width: 1e6, height: 1e6 };

/** The outline of a part with a curve at true size, with the square by which a print is measured. */
function patternOf(book: Workbook, part: string | undefined): Made {
  const { parts, problems } = readParts(book);
  const says = problems.map(({ at, says: problem }) => `${cellOf(book, at)} ${problem}`);
  const patterns = curveTemplates(buildScene(parts), WHOLE);
  const names = patterns.map((one) => one.part.name);
  const trouble = (problem: string): Made => ({ text: undefined, says: [...says, problem] });
  if (names.length === 0) return trouble('No part has a curve, so there is no pattern to write.');
  const wanted = patterns.filter((one) => part === undefined || one.part.name === part);
  const [pattern, ...others] = wanted;
  if (pattern === undefined) {
    return trouble(`There is no pattern of "${part}"; --part takes ${listed(names)}.`);
  }
  if (others.length > 0) {
    return trouble(`Patterns are written one by one; --part takes ${listed(names)}.`);
  }
  const { pages } = templatePages(pattern, { room: WHOLE, units: book.units, standalone: true });
  return { text: pages[0]?.svg, says };
}

const listed = (names: readonly string[]): string =>
  [...new Set(names)].map((name) => `"${name}"`).join(', ');

function drawn(book: Workbook, view: Exclude<ViewName, 'pattern'>): Made {
  const drawing = drawViews(book, {
    views: view === 'whole' || view === 'apart' ? ['plan'] : [view],
    format: bookFormat(book),
    standalone: true,
    ...(view === 'whole' ? { whole: {} } : {}),
    ...(view === 'apart' ? { exploded: {} } : {}),
  });
  const says = drawing.problems.map(({ at, says: problem }) => `${cellOf(book, at)} ${problem}`);
  return {
    text:
      view === 'whole' ? drawing.whole : view === 'apart' ? drawing.exploded : drawing.svg[view],
    says: drawing.says === undefined ? says : [...says, drawing.says],
  };
}

function drafted(book: Workbook): Made {
  const { dxf, problems, says } = drawDxf(book, {
    views: ['plan', 'front', 'end'],
    format: bookFormat(book),
    whole: {},
  });
  const told = problems.map(({ at, says: problem }) => `${cellOf(book, at)} ${problem}`);
  return { text: dxf, says: says === undefined ? told : [...told, says] };
}
