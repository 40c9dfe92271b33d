import { type At, type CheckState, type Edit, Workbook } from '@kerfbook/workbook';
import { pairedRows } from './pairs.ts';
import type { GuideSource } from './source.ts';

/** What an input with a list takes. */
export interface Choosing {
  choices(at: At): readonly { readonly text: string }[] | undefined;
}

/** A longer list is of names, such as woods, that are read one by one: sentences do not differ by them. */
const MOST_CHOICES = 8;
/** Choices of a longer list are met alone: with each of every other list they would take long. */
const MOST_PAIRED = 5;
/** How often a size that a check stops is moved halfway back to the one at hand. */
const HALVINGS = 4;

/**
 * A workbook as readers can have it: each input that is open to them as each of its choices, at its least and at its most,
 * all others as they stand; then any two choices of short lists together, in few workbooks that have several such. It is one
 * workbook, which has another size each time; the one it was made of stays as it is. What only comes with three of them
 * together, or with two sizes, may not be met.
 */
export function* otherSizes(source: GuideSource & Choosing): Generator<GuideSource> {
  const inputs = (source.head.guide?.inputs ?? []).flatMap((name) => source.named(name) ?? []);
  if (inputs.length === 0) return;
  const book = Workbook.open(source.document());
  const stands = (wanted: CheckState['state']): boolean =>
    book.checks().some(({ state }) => state === wanted);
  const [wasStopped, wasUnknown] = [stands('stop'), stands('unknown')];
  /** What puts the input that was changed last back as it was. */
  let back: Edit[] = [];
  /** Whether all could be entered; what could not be is not to be had by readers either. */
  const enter = (all: readonly Entry[]): boolean => {
    const entered = all.map(({ at: { sheet, row, column }, text }): Edit => {
      return { do: 'enter', sheet, cells: [{ row, column, text }] };
    });
    const isEntered = book.apply({ do: 'batch', edits: [...back, ...entered] }).ok;
    if (isEntered) back = all.map(({ back: one }) => one);
    return isEntered;
  };
  const lists: (readonly Entry[])[] = [];
  for (const { at, name, value, shown, allow = {} } of inputs) {
    // A copy is without its name.
    const own = { ...book.copyOf(at), ...(name === undefined ? {} : { name }) };
    const undone: Edit = {
      do: 'place',
      sheet: at.sheet,
      cells: [{ row: at.row, column: at.column, cell: own }],
    };
    const choices = source.choices(at) ?? [];
    if (choices.length > 0 && choices.length <= MOST_PAIRED) {
      const others = choices.filter(({ text }) => text !== shown.text);
      lists.push(others.map(({ text }) => ({ at, text, back: undone })));
    }
    const wanted = [
      ...(choices.length > MOST_CHOICES ? [] : choices.map(({ text }) => [text])),
      ...(value.kind !== 'number' || choices.length > 0
        ? []
        : [allow.min, allow.max].map((end) =>
            sizesToward(value.number, end, allow.whole === true),
          )),
    ];
    for (const sizes of wanted) {
      // The first of them that can be built. A choice is one that readers make, whatever else it asks of them.
      for (const size of sizes) {
        if (size === shown.text || !enter([{ at, text: size, back: undone }])) continue;
        if (!wasUnknown && stands('unknown')) continue;
        if (!wasStopped && choices.length === 0 && stands('stop')) continue;
        yield book;
        break;
      }
    }
  }
  for (const row of pairedRows(lists.map(({ length }) => length))) {
    const together = row.flatMap((choice, list) => lists[list]?.[choice - 1] ?? []);
    if (enter(together) && (wasUnknown || !stands('unknown'))) yield book;
  }
}

/** What is entered, and what puts its cell back as it was. */
interface Entry {
  readonly at: At;
  readonly text: string;
  readonly back: Edit;
}

/** The end of a range, and sizes from it toward the one at hand. */
function sizesToward(own: number, end: number | undefined, isWhole: boolean): readonly string[] {
  if (end === undefined) return [];
  const all = Array.from({ length: HALVINGS }, (_, i) => own + (end - own) / 2 ** i)
    .map((size) => (isWhole ? Math.round(size) : size))
    .filter((size) => size !== own);
  return [...new Set(all)].map(String);
}
