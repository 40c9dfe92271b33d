import { shopPlan } from '@kerfbook/drawing';
import { checksKept, guidePage, PAPERS, type Paper, readPlan } from '@kerfbook/guide';
import type { Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { guideFonts } from '../guide-fonts.ts';
import { openAndSet } from '../open-set.ts';
import { provePlans } from '../prove.ts';
import { unsaid } from '../second-language.ts';
import { cellOf } from '../values.ts';
import type { Command } from './command.ts';
import { writeReadersPage } from './guide-readers.ts';

/** `guide`: the plan that others build from, as a page ready to print. */
export const guideCommand: Command = {
  name: 'guide',
  usage:
    'guide FILE --out PAGE [--set name=entry]… [--paper a4|letter] [--second] [--for-readers [--split]] [--force]',
  does: 'writes the plan that others build from as one HTML page, ready to print, or one that follows its readers’ sizes',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      out: { type: 'string' },
      set: { type: 'string', multiple: true },
      paper: { type: 'string' },
      second: { type: 'boolean' },
      'for-readers': { type: 'boolean' },
      split: { type: 'boolean' },
      force: { type: 'boolean' },
    });
    const { out, split = false, force = false } = values;
    if (out === undefined || out === '') {
      throw new Misuse('--out says where the page goes; it is missing.');
    }
    const paper = paperOf(values.paper);
    const forReaders = values['for-readers'] === true;
    if (split && !forReaders) {
      throw new Misuse(
        '--split puts the script of a page for readers beside it: it takes --for-readers.',
      );
    }
    if (forReaders && (paper !== undefined || values.second === true)) {
      throw new Misuse(
        'A page for readers has no paper, and its readers choose the language: leave --paper and --second out.',
      );
    }
    const opened = await openAndSet('make a plan of', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    await provePlans(book, (one) => shopPlan(one, 'cell'));
    const second = values.second === true;
    const plan = readPlan(book, second);
    if (second && plan.translation === undefined) {
      io.err(
        'This workbook has no words in a second language. Add a table of kind "words": what the plan says, and what that is called.',
      );
      return 1;
    }
    const told = [
      ...refused.map(({ cell, says }) => `${cell} ${says}`),
      ...plan.problems.map(({ at, says }) => `${cellOf(book, at)} ${says}`),
      ...(plan.steps.length > 0 ? [] : [plan.found ? NO_STEPS_NOW : NO_STEPS]),
    ];
    const left = second ? unsaid(book) : [];
    for (const says of [...told, ...left]) io.err(says);
    if (forReaders) for (const says of keptFromReaders(book)) io.out(says);
    if (forReaders) {
      const ended = await writeReadersPage(book, { out, force, split }, io);
      return ended === 0 && told.length > 0 ? 1 : ended;
    }
    const page = guidePage(book, {
      paper: paper ?? (book.units === 'us' ? 'letter' : 'a4'),
      second,
      plan: shopPlan(book, 'cell'),
      fonts: await guideFonts(),
    });
    const trouble = await io.write(out, page, force);
    if (trouble !== undefined) {
      io.err(trouble);
      return 2;
    }
    return told.length + left.length > 0 ? 1 : 0;
  },
};

/** Which checks readers do not get with the costs, and why. */
function keptFromReaders(book: Workbook): readonly string[] {
  return checksKept(book.document()).map(
    ({ name, why }) =>
      `Readers do not get the check "${name}": ${why === 'says' ? 'it says an amount' : 'it rests on an amount'}, and costs are kept from them.`,
  );
}

const NO_STEPS =
  'This workbook has no steps, so the page shows the cut list, what to buy and how to cut it. To write steps, add a table of kind "steps" with a column headed "step"; each row is one.';
const NO_STEPS_NOW =
  'No step of this workbook is done at this size, so the page shows the cut list, what to buy and how to cut it. Look at what stands under "when" in its steps table.';

/** The paper that was asked for; undefined where none was. */
function paperOf(word: string | undefined): Paper | undefined {
  const found = PAPERS.find((one) => one === word?.toLowerCase());
  if (word !== undefined && found === undefined) {
    throw new Misuse(`--paper takes ${PAPERS.join(', ')}; it got "${word}".`);
  }
  return found;
}
