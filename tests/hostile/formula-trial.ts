import {
  type At,
  type BookDocument,
  type CellValue,
  type Edit,
  loadText,
  saveText,
  Workbook,
} from '@kerfbook/workbook';
import { CompiledDocument } from '@kerfbook/workbook/sweep';
import { CHANGING } from './formula-grammar.ts';
import { JUDGE } from './judge.ts';

/** A sentence or two for a person; the last may be a question. */
const plainSentence =
  /^(?!.*(?:undefined|NaN|\[object|TypeError|stack| at .*:\d+:\d+)).{20,900}[.?]$/su;

/** How many formulas are tried in one workbook. */
export const BATCH = 40;
/** How many of them are typed as one edit: where results spread, the engine is built anew each time. */
const TOGETHER = 20;
const FIRST = 5;

const rows = (lines: readonly Record<string, object>[], count = lines.length) =>
  Array.from({ length: count }, (_, i) => ({
    id: `r${i + 1}`,
    ...(lines[i] === undefined ? {} : { cells: lines[i] }),
  })) as BookDocument['sheets'][number]['rows'];

const columns = (count: number) => Array.from({ length: count }, (_, i) => ({ id: `c${i + 1}` }));

/** An invented workbook: numbers, words and names in several scripts, and a sheet for each formula. */
export function trialBook(count: number): BookDocument {
  return {
    kerfbook: 8,
    title: 'An invented workbook for trying formulas',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Base',
        columns: columns(3),
        rows: rows([
          {
            c1: { value: 20, quantity: 'length', name: 'seat_width' },
            c2: { value: 'oak', name: 'wood' },
          },
          {
            c1: { value: 3.5, name: 'ширина' },
            c2: { value: 2, quantity: 'money' },
            c3: { value: 1.25 },
          },
          {
            c1: { value: -1, name: 'größe' },
            c2: { value: true },
            c3: { formula: '=[c1.r1]*2', quantity: 'area' },
          },
          { c1: { formula: '=[c1.r1]*[c1.r1]', name: 'panel_area', quantity: 'area' } },
          { c1: { value: 4, name: 'offset_x' }, c2: { formula: '=1/0' } },
          { c1: { value: 9, name: 'épaisseur' } },
        ]),
      },
      {
        id: 's2',
        name: 'Шкаф 2',
        columns: columns(2),
        rows: rows([
          { c1: { value: 5 }, c2: { value: 'board' } },
          { c1: { value: 6 }, c2: { value: '12' } },
          { c1: { value: 7, name: 'area_ft²' } },
          { c1: { formula: '=[s1!c1.r2]+[c1.r1]' } },
        ]),
      },
      { id: 's3', name: '板', columns: columns(2), rows: rows([{ c1: { value: 11 } }, {}]) },
      {
        id: 's4',
        name: "Maker's",
        columns: columns(2),
        rows: rows([
          { c1: { value: 'species' }, c2: { value: 'tangential' } },
          { c1: { value: 'oak' }, c2: { value: 0.004 } },
        ]),
      },
      ...Array.from({ length: count }, (_, i) => ({
        id: `s${FIRST + i}`,
        name: `T${i}_`,
        columns: columns(4),
        rows: rows(
          [
            { c1: { value: 1 }, c2: { value: 2 } },
            { c1: { value: 3 }, c2: { value: 'x' } },
          ],
          5,
        ),
      })),
    ],
    checks: [
      {
        id: 'k1',
        name: 'try',
        formula: '=1=2',
        severity: 'care',
        says: 'It is {ширина} and {größe}.',
      },
    ],
    tables: [{ id: 't1', kind: 'woods', sheet: 's4', header: 'r1', last: 'r2' }],
  };
}

export const placeOf = (i: number): At => ({ sheet: `s${FIRST + i}`, row: 2, column: 2 });

/** What is wrong with a value, if anything is. */
function unsound(value: CellValue): string | undefined {
  if (value.kind === 'number' && !Number.isFinite(value.number))
    return `the number ${value.number}`;
  if (value.kind === 'error' && !plainSentence.test(value.error.says)) {
    return `the sentence "${value.error.says}"`;
  }
  return undefined;
}

/** Everything that is asked of a cell, once; throws where anything of it does. */
function asked(book: Workbook, at: At): string | undefined {
  const { entry, shown, formula, clash, value } = book.cell(at);
  const told = book.explain(at);
  book.usedBy(at);
  if (clash !== undefined && !plainSentence.test(clash.says)) return `the clash "${clash.says}"`;
  if (formula !== undefined && entry !== formula) return `the entry ${entry}`;
  if (/NaN|Infinity|undefined|\[object/.test(shown.text)) return `shown as ${shown.text}`;
  if (/undefined|\[object/.test(told.withNumbers ?? '')) return `in numbers ${told.withNumbers}`;
  return unsound(value);
}

function opened(text: string): Workbook {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(`it cannot be opened again: ${loaded.says}`);
  return Workbook.open(loaded.document);
}

/**
 * Types formulas, each on a sheet of its own, and asks for everything there is to ask; then the same of
 * the workbook saved and opened again.
 *
 * @returns what is wrong, with the first formula it is wrong with
 */
export function trouble(formulas: readonly string[]): string | undefined {
  const book = Workbook.open(trialBook(formulas.length));
  try {
    for (let from = 0; from < formulas.length; from += TOGETHER) {
      const some = formulas.slice(from, from + TOGETHER).map((text, i) => entering(from + i, text));
      // One that is refused refuses all of an edit; then each is typed by itself.
      const together = some.length > 1 && book.apply({ do: 'batch', edits: some }).ok;
      for (const [i, edit] of some.entries()) {
        const text = formulas[from + i] ?? '';
        const result = together ? undefined : book.apply(edit);
        const wrong = typed(book, placeOf(from + i), text, result?.ok === false ? result.says : '');
        if (wrong !== undefined) return `${JSON.stringify(text)}: ${wrong}`;
      }
    }
    return whole(book) ?? again(book, formulas);
  } catch (error) {
    return `threw ${error instanceof Error ? error.stack : String(error)}`;
  }
}

function entering(i: number, text: string): Edit {
  const { sheet, row, column } = placeOf(i);
  return { do: 'enter', sheet, cells: [{ row, column, text }] };
}

/** @param refusal the sentence it was refused with; empty where it was not */
function typed(book: Workbook, at: At, text: string, refusal: string): string | undefined {
  if (refusal !== '') {
    if (!plainSentence.test(refusal)) return `refused with "${refusal}"`;
    return book.cell(at).entry === '' ? undefined : 'refused, and yet it stands there';
  }
  const { entry } = book.cell(at);
  if (!text.includes('[') && plain(entry) !== plain(text))
    return `the entry ${JSON.stringify(entry)}`;
  return asked(book, at) ?? unsound(book.evaluate(text, at.sheet));
}

/** A formula without what may differ in how it is shown: capitals, quotes of sheets, ends. */
const plain = (text: string): string =>
  text.trim().toLowerCase().normalize('NFC').replaceAll("'", '').replaceAll('$', '');

/** What is asked of a workbook as a whole, and the same formulas in checks. */
function whole(book: Workbook): string | undefined {
  for (const { says } of book.clashes())
    if (!plainSentence.test(says)) return `the clash "${says}"`;
  for (const { says } of book.problems()) {
    if (!plainSentence.test(says)) return `the problem "${says}"`;
  }
  return undefined;
}

function again(book: Workbook, formulas: readonly string[]): string | undefined {
  const checks = formulas.slice(0, 8).map((text, i) => ({
    id: `k${i + 1}`,
    name: `try ${i}`,
    formula: book.keptFormula(text),
    severity: 'care' as const,
    says: 'It is {ширина} and {größe}.',
  }));
  const set = book.apply({ do: 'setChecks', checks });
  if (!set.ok && !plainSentence.test(set.says)) return `the checks refused: ${set.says}`;
  book.checkClashes();
  const text = saveText(book.document());
  const other = opened(text);
  if (saveText(other.document()) !== text) return 'saved otherwise when opened again';
  const compiled = CompiledDocument.of(other.document());
  const judged = Workbook.open(other.document(), JUDGE);
  for (const [i, formula] of formulas.entries()) {
    const at = placeOf(i);
    const wrong =
      asked(other, at) ??
      differs(book, other, at, formula) ??
      (CHANGING.test(formula)
        ? undefined
        : (differsFrom('judged', judged, other, at) ??
          differsFrom('compiled', compiled, other, at)));
    if (wrong !== undefined) return `${JSON.stringify(formula)}, opened again: ${wrong}`;
  }
  for (const [i, now] of book.checks().entries()) {
    const formula = formulas[i] ?? '';
    const [a, b] = [JSON.stringify(now), JSON.stringify(other.checks()[i])];
    if (a !== b && !CHANGING.test(formula)) {
      return `${JSON.stringify(formula)} in a check: ${a} became ${b}`;
    }
  }
  return undefined;
}

function differs(book: Workbook, other: Workbook, at: At, formula: string): string | undefined {
  const [now, then] = [book.cell(at), other.cell(at)];
  if (now.entry !== then.entry) return `shows ${then.entry} instead of ${now.entry}`;
  if (CHANGING.test(formula)) return undefined;
  const [a, b] = [JSON.stringify(now.value), JSON.stringify(then.value)];
  return a === b ? undefined : `${a} became ${b}`;
}

function differsFrom(
  who: string,
  by: Pick<Workbook, 'value'>,
  book: Workbook,
  at: At,
): string | undefined {
  const [now, then] = [book.value(at), by.value(at)].map((one) => JSON.stringify(one));
  return now === then ? undefined : `${who} it is ${then} instead of ${now}`;
}

/** One formula of a failing batch that fails by itself, as short as taking pieces out makes it. */
export function smallest(formulas: readonly string[]): string {
  const alone = formulas.find((text) => trouble([text]) !== undefined);
  if (alone === undefined)
    return `${trouble(formulas)} (together only: ${JSON.stringify(formulas)})`;
  let text = alone;
  for (let size = Math.ceil(text.length / 2); size > 0; size = Math.floor(size / 2)) {
    for (let start = 1; start + size <= text.length; ) {
      const shorter = text.slice(0, start) + text.slice(start + size);
      if (trouble([shorter]) === undefined) start += 1;
      else text = shorter;
    }
  }
  return `${JSON.stringify(text)} ← ${JSON.stringify(alone)}\n${trouble([text])}`;
}
