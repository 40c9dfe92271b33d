import { dayOfClock, written } from '@kerfbook/days';
import { bookFormat, drawViews, knownTable, oldPrices } from '@kerfbook/drawing';
import { readPlan } from '@kerfbook/guide';
import { namesInSentence, promiseProblems, type Workbook } from '@kerfbook/workbook';
import { CompiledDocument } from '@kerfbook/workbook/sweep';
import { Misuse, readArguments } from '../arguments.ts';
import type { ExitCode, Io } from '../io.ts';
import { openBook } from '../open.ts';
import { unsaid } from '../second-language.ts';
import { cellOf } from '../values.ts';
import type { Command } from './command.ts';

/** `check`: what a maker should look at before sharing a workbook. */
export const checkCommand: Command = {
  name: 'check',
  usage: 'check FILE…',
  does: 'looks for damage, formulas in error or with numbers that do not go together, names that lead nowhere or are not what is promised of them, parts that hang loose, steps that leave a part out or show what is gone, texts without words in the second language, and checks that say stop; names formulas that are not compiled and prices that are old',
  async run(args, io) {
    const { positionals } = readArguments(args, {});
    if (positionals.length === 0) throw new Misuse('There is no workbook to check.');
    let worst: ExitCode = 0;
    for (const path of positionals) worst = worseOf(worst, await checkFile(path, io));
    return worst;
  },
};

const worseOf = (a: ExitCode, b: ExitCode): ExitCode => (a > b ? a : b);

async function checkFile(path: string, io: Io): Promise<ExitCode> {
  const opened = await openBook(path, io);
  if (!opened.ok) {
    // Damage is what this command looks for; a file that is no workbook is not what it takes.
    if (opened.damaged) io.out(opened.says);
    else io.err(opened.says);
    return opened.damaged ? 1 : 2;
  }
  const slow = slowFormulas(opened.book);
  const old = oldPrices(opened.book, written(dayOfClock(io.now())));
  const found = findings(opened.book);
  for (const line of found) io.out(`${path}: ${line}`);
  for (const line of [...slow, ...old]) io.out(`${path}: ${line}`);
  if (found.length === 0) io.out(`${path}: nothing found.`);
  return found.length === 0 ? 0 : 1;
}

/** One line for each thing found: where it is, and the sentence. Uses the book up. */
function findings(book: Workbook): string[] {
  return [
    ...book.problems().map(({ address, word, says }) => `${address} ${word} ${says}`),
    ...clashes(book),
    ...strayParts(book),
    ...planProblems(book),
    ...unsaidWords(book),
    ...failedChecks(book),
    ...promiseProblems(book),
    ...unknownWords(book),
    ...deadNames(book),
    ...hiddenNames(book),
  ];
}

/** Formulas that are not compiled: nothing is wrong with them, but a sweep over many inputs waits for them. */
function slowFormulas(book: Workbook): string[] {
  const compiled = CompiledDocument.of(book.document());
  const left = compiled.left().filter(({ readable }) => readable);
  compiled.destroy();
  return left.map(
    ({ where, word }) => `${where} is worked out by the slower engine: ${word} is not compiled.`,
  );
}

/** Formulas that add up what does not go together; they compute all the same. */
function clashes(book: Workbook): string[] {
  return [
    ...book.clashes().map(({ address, says }) => `${address} ${says}`),
    ...book.checkClashes().map(({ name, says }) => `check "${name}": ${says}`),
  ];
}

/** Parts that hang loose, and copies of a part in one another. One part in another may be a joint. */
function strayParts(book: Workbook): string[] {
  const format = bookFormat(book);
  const { clashes: found } = drawViews(book, { views: [], format, clashes: true });
  const copies = found?.overlaps.filter(({ part, other }) => part === other) ?? [];
  return [...copies, ...(found?.floating ?? [])].map(
    ({ at, says }) => `${cellOf(book, at)} ${says}`,
  );
}

/** What is wrong with the steps that others build from. */
const planProblems = (book: Workbook): readonly string[] =>
  readPlan(book).problems.map(({ at, says }) => `${cellOf(book, at)} ${says}`);

/** What its second language has no words for; nothing of a workbook that has no such table. */
const unsaidWords = (book: Workbook): readonly string[] =>
  knownTable(book, 'words') === undefined ? [] : unsaid(book);

function failedChecks(book: Workbook): string[] {
  return book
    .checks()
    .filter(({ state }) => state === 'stop' || state === 'unknown')
    .map(({ name, says }) => `check "${name}": ${says}`);
}

/** Words in braces that a check's sentence would show as they stand, for want of such a cell. */
function unknownWords(book: Workbook): string[] {
  return book.document().checks.flatMap(({ name, says }) =>
    namesInSentence(says)
      .filter((word) => book.named(word) === undefined)
      .map((word) => `check "${name}": its sentence shows {${word}}, and no cell has that name.`),
  );
}

/** Names of empty cells that no formula, check, table or plan uses. */
function deadNames(book: Workbook): string[] {
  return book.names().flatMap(({ name, at }) => {
    const cell = book.cell(at);
    if (cell.value.kind !== 'empty' || cell.formula !== undefined) return [];
    if (book.usedBy(at).length + book.alsoUsedBy(at).length > 0) return [];
    // A name can be taken away only while nothing uses it.
    if (!book.apply({ do: 'nameCell', at, name: null }).ok) return [];
    return `${cellOf(book, cell.at)} is named ${name}, but is empty and not used.`;
  });
}

/** Unknown names in formulas that an override hides for now. */
function hiddenNames(book: Workbook): string[] {
  return overrides(book).flatMap((at) => {
    const { sheet, row, column } = at;
    if (!book.apply({ do: 'restore', sheet, cells: [{ row, column }] }).ok) return [];
    const { value } = book.cell(at);
    if (value.kind !== 'error' || value.error.word !== '#NAME?') return [];
    if (value.error.from !== undefined) return [];
    return `${cellOf(book, at)} #NAME? Under its override: ${value.error.says}`;
  });
}

function overrides(book: Workbook) {
  return book.sheets().flatMap(({ id, rows, columns }) => {
    const places = Array.from({ length: rows * columns }, (_, i) => ({
      sheet: id,
      row: Math.floor(i / columns),
      column: i % columns,
    }));
    return places.filter((at) => book.cell(at).override !== undefined);
  });
}
