import type { At, BookDocument } from '@kerfbook/document';
import type { CellIds, OpenWorkbook } from '../api.ts';
import { compareBooks } from '../book/compare.ts';
import { Workbook } from '../workbook.ts';
import { inStep, inUnits, notKin, unlocked } from './in-step.ts';
import { calledIn, entryText, type Listed, listed } from './listed.ts';

/** What is otherwise in a second workbook. */
export interface Compared {
  /** Both came of one workbook, and are compared place by place; else by the names of cells. */
  readonly kin: boolean;
  /** The first was turned into the units of the second. */
  readonly turned: boolean;
  /** What was typed or set otherwise. */
  readonly typed: readonly Listed[];
  /** Cells that only came to something else. */
  readonly results: readonly Listed[];
}

/**
 * What is otherwise in a second workbook than in a first one: all that was typed or set, and what comes to something
 * else by that. One in other units is turned into those of the second, on its round figures (rule H10); two that did
 * not come of one workbook are compared by the names of their cells and checks.
 */
export function compared(before: BookDocument, after: BookDocument): Compared {
  const second = Workbook.open(unlocked(after));
  const turned = before.units !== after.units;
  const kin = notKin(before, after) === undefined;
  const step = turned && kin ? inStep(before, before, after) : undefined;
  const common = step?.ok === true ? step.base : asFar(inUnits(before, after.units), before);
  const first = Workbook.open(unlocked(common));
  if (!kin) return { kin, turned, typed: byNames(first, second), results: [] };
  return {
    kin,
    turned,
    typed: listed({ before: first, after: second }),
    results: compareBooks(unlocked(common), second).flatMap((one): readonly Listed[] => {
      if (one.kind !== 'result' || one.at === undefined) return [];
      const ids = second.idsAt(one.at);
      return [
        {
          kind: 'cells',
          sheet: second.sheet(one.at.sheet)?.name ?? '',
          what: calledIn(second, one.at),
          before: one.before,
          after: one.after,
          at: one.at,
          ...(ids === undefined ? {} : { cells: [ids] }),
        },
      ];
    }),
  };
}

/** A workbook that cannot be turned is compared as it is. */
const asFar = (turned: ReturnType<typeof inUnits>, document: BookDocument): BookDocument =>
  turned.ok ? turned.document : document;

interface Named {
  readonly at: At;
  readonly name: string;
  readonly text: string;
}

function namesOf(book: OpenWorkbook): ReadonlyMap<string, Named> {
  return new Map(
    book.names().flatMap(({ name }) => {
      const at = book.named(name)?.at;
      return at === undefined
        ? []
        : [[name.toLowerCase(), { at, name, text: entryText(book, at) }]];
    }),
  );
}

/** What two workbooks that have nothing else in common come to under the same names. */
function byNames(before: OpenWorkbook, after: OpenWorkbook): readonly Listed[] {
  const [was, is] = [namesOf(before), namesOf(after)];
  const names = [...new Set([...is.keys(), ...was.keys()])];
  const cells = names.flatMap((key): readonly Listed[] => {
    const [one, other] = [was.get(key), is.get(key)];
    const here = other ?? one;
    if (here === undefined || one?.text === other?.text) return [];
    const book = other === undefined ? before : after;
    const ids: CellIds | undefined = other === undefined ? undefined : after.idsAt(other.at);
    return [
      {
        kind: 'cells',
        sheet: book.sheet(here.at.sheet)?.name ?? '',
        what: `${calledIn(book, here.at)}, ${here.name}`,
        before: one?.text ?? '',
        after: other?.text ?? '',
        at: here.at,
        ...(ids === undefined ? {} : { cells: [ids] }),
      },
    ];
  });
  return [...cells, ...checksByNames(before, after)];
}

function checksByNames(before: OpenWorkbook, after: OpenWorkbook): readonly Listed[] {
  const of = (book: OpenWorkbook) =>
    new Map(
      book.checkForms().map(({ name, formula, says }) => [name, `${formula}, else "${says}"`]),
    );
  const [was, is] = [of(before), of(after)];
  return [...new Set([...is.keys(), ...was.keys()])].flatMap((name): readonly Listed[] => {
    const [one = '', other = ''] = [was.get(name), is.get(name)];
    if (one === other) return [];
    return [{ kind: 'checks', sheet: 'Checks', what: name, before: one, after: other }];
  });
}
