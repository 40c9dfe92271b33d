import {
  bookFormat,
  drawDxf,
  drawViews,
  patternFile,
  readParts,
  wholePatterns,
} from '@kerfbook/drawing';
import { saveText, type Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { openAndSet } from '../open-set.ts';
import { cellOf } from '../values.ts';
import type { Command } from './command.ts';
import { asCsv, asOffice } from './export-office.ts';

const FORMATS = ['json', 'xlsx', 'ods', 'csv', 'svg', 'dxf'] as const;
type FormatName = (typeof FORMATS)[number];

/** What of the drawing an SVG shows; a DXF has all of it, views side by side. A pattern of either is of one part, at true size. */
const VIEWS = ['plan', 'front', 'end', 'whole', 'apart', 'pattern'] as const;
type ViewName = (typeof VIEWS)[number];

/** `export`: a workbook, or the drawing of its parts, in an open format. */
export const exportCommand: Command = {
  name: 'export',
  usage:
    'export FILE --to json|xlsx|ods|csv|svg|dxf --out PATH [--force] [--set name=entry]… [--sheet NAME] [--formulas] [--view plan|front|end|whole|apart|pattern] [--part NAME]',
  does: 'writes the workbook, for office programs too, or the drawing of its parts, to a file',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      to: { type: 'string' },
      out: { type: 'string' },
      force: { type: 'boolean' },
      set: { type: 'string', multiple: true },
      view: { type: 'string' },
      part: { type: 'string' },
      sheet: { type: 'string' },
      formulas: { type: 'boolean' },
    });
    const to = formatOf(values.to);
    const view = viewOf(values.view);
    const { out, part } = values;
    if (view === 'pattern' && to !== 'svg' && to !== 'dxf') {
      throw new Misuse(`A pattern takes --to svg or dxf; it got "${to}".`);
    }
    if (part !== undefined && view !== 'pattern') {
      throw new Misuse('--part says of which part a pattern is: it takes --view pattern.');
    }
    if (to !== 'csv' && (values.sheet !== undefined || values.formulas === true)) {
      throw new Misuse('--sheet and --formulas say what a csv file holds: they take --to csv.');
    }
    if (out === undefined || out === '')
      throw new Misuse('--out says where the file goes; it is missing.');
    const opened = await openAndSet('export', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    for (const { cell, says } of refused) io.err(`${cell} ${says}`);
    const made = madeOf(book, to, {
      view,
      part,
      sheet: values.sheet,
      formulas: values.formulas === true,
    });
    for (const says of made.says) io.err(says);
    if (made.file === undefined) return 1;
    const trouble = await io.write(out, made.file, values.force === true);
    if (trouble !== undefined) {
      io.err(trouble);
      return 2;
    }
    for (const line of made.told ?? []) io.out(line);
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
  readonly file: string | Uint8Array | undefined;
  /** What is wrong. */
  readonly says: readonly string[];
  /** What is otherwise than in the workbook, though nothing is wrong. */
  readonly told?: readonly string[];
}

interface Wanted {
  readonly view: ViewName;
  readonly part: string | undefined;
  readonly sheet: string | undefined;
  readonly formulas: boolean;
}

function madeOf(book: Workbook, to: FormatName, { view, part, sheet, formulas }: Wanted): Made {
  switch (to) {
    case 'json':
      return { file: saveText(book.document()), says: [] };
    case 'xlsx':
    case 'ods':
      return { ...asOffice(book, to), says: [] };
    case 'csv':
      return { ...asCsv(book, sheet, formulas), says: [] };
    case 'dxf':
      return view === 'pattern' ? patternOf(book, part, to) : drafted(book);
    case 'svg':
      return view === 'pattern' ? patternOf(book, part, to) : drawn(book, view);
  }
}

/** The outline of a part with a curve at true size; as SVG with the square by which a print is measured. */
function patternOf(book: Workbook, part: string | undefined, to: 'svg' | 'dxf'): Made {
  const { parts, problems } = readParts(book);
  const says = problems.map(({ at, says: problem }) => `${cellOf(book, at)} ${problem}`);
  const patterns = wholePatterns(parts);
  const names = patterns.map((one) => one.part.name);
  const trouble = (problem: string): Made => ({ file: undefined, says: [...says, problem] });
  if (names.length === 0) return trouble('No part has a curve, so there is no pattern to write.');
  const wanted = patterns.filter((one) => part === undefined || one.part.name === part);
  const [pattern, ...others] = wanted;
  if (pattern === undefined) {
    return trouble(`There is no pattern of "${part}"; --part takes ${listed(names)}.`);
  }
  if (others.length > 0) {
    return trouble(`Patterns are written one by one; --part takes ${listed(names)}.`);
  }
  return { file: patternFile(pattern, to, book.units), says };
}

const listed = (names: readonly string[]): string =>
  [...new Set(names)].map((name) => `"${name}"`).join(', ');

function drawn(book: Workbook, view: Exclude<ViewName, 'pattern'>): Made {
  const drawing = drawViews(book, {
    views: view === 'whole' || view === 'apart' ? ['plan'] : [view],
    format: bookFormat(book),
    standalone: true,
    sideBySide: true,
    ...(view === 'whole' ? { whole: {} } : {}),
    ...(view === 'apart' ? { exploded: {} } : {}),
  });
  const says = drawing.problems.map(({ at, says: problem }) => `${cellOf(book, at)} ${problem}`);
  return {
    file:
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
  return { file: dxf, says: says === undefined ? told : [...told, says] };
}
