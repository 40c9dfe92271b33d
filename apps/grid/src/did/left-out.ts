import { keyOfCell, restingOn } from '@kerfbook/drawing';
import { type At, type OpenWorkbook, typedTokens } from '@kerfbook/workbook';
import { ByCell } from '../session/by-cell.ts';
import type { Effect } from '../session/effects.ts';

/** How many pieces a plan left out that a cell rests on, before a change and now. */
export interface LeftOut {
  readonly was: number;
  readonly is: number;
}

const COUNTS = 'PLAN_LEFT_OUT';
const PLANS: ReadonlySet<string> = new Set(['PLAN_COST', 'PLAN_BOUND', COUNTS]);
const ASKS = new RegExp(`\\b(?:${[...PLANS].join('|')})\\s*\\(`, 'i');

/** A formula that asks for a plan: what it asks, and of which tables. */
interface Asking {
  readonly at: At;
  readonly counts: boolean;
  readonly of: string;
}

/** The pieces that are not in what a cell comes to, or were not; nothing where all are in it, then and now. */
export type LeftOutAt = (at: At) => LeftOut | undefined;

/** While a number is pulled, formulas stay what they are: each frame would look for the same ones. */
const known = new WeakMap<OpenWorkbook, readonly Asking[]>();

/** Which cells rest on plans that found no board for some pieces: a price without their wood is no lower one. */
export function leftOutOf(effect: Effect, book: OpenWorkbook): LeftOutAt {
  const asking = (effect.id === 0 ? known.get(book) : undefined) ?? askingIn(book);
  known.set(book, asking);
  const before = new ByCell<number>();
  for (const since of [effect.since?.moved ?? [], effect.moved]) {
    for (const { at, was } of since) if (was.kind === 'number') before.set(at, was.number);
  }
  const found = new Map<string, LeftOut>();
  for (const { at, of, counts } of asking) {
    if (counts) continue;
    const counted = asking.find((one) => one.counts && one.of === of)?.at;
    const value =
      counted === undefined ? book.evaluate(`=${COUNTS}(${of})`, at.sheet) : book.value(counted);
    const is = value.kind === 'number' ? value.number : 0;
    const was = (counted === undefined ? undefined : before.get(counted)) ?? is;
    if (is === 0 && was === 0) continue;
    for (const key of restingOn(book, [at]).keys()) found.set(key, { was, is });
  }
  return (at) => found.get(keyOfCell(at));
}

/** Formulas of a workbook that ask for a plan of its parts. */
function askingIn(book: OpenWorkbook): readonly Asking[] {
  return book.document().sheets.flatMap(({ id: sheet, rows, columns }) =>
    rows.flatMap(({ cells = {} }, row) =>
      Object.entries(cells).flatMap(([column, { formula, override }]): readonly Asking[] => {
        if (formula === undefined || override !== undefined || !ASKS.test(formula)) return [];
        const at = { sheet, row, column: columns.findIndex(({ id }) => id === column) };
        return callsIn(book.cell(at).formula ?? '').map((call) => ({ at, ...call }));
      }),
    ),
  );
}

/** The plans that a formula asks for, each with its arguments as they are written. */
function callsIn(formula: string): readonly Omit<Asking, 'at'>[] {
  const tokens = typedTokens(formula);
  return tokens.flatMap(({ kind, text, end }, i): readonly Omit<Asking, 'at'>[] => {
    const name = text.toUpperCase();
    if (kind !== 'function' || !PLANS.has(name)) return [];
    let depth = 0;
    for (const one of tokens.slice(i + 1)) {
      if (one.text === '(') depth += 1;
      if (one.text !== ')') continue;
      depth -= 1;
      if (depth === 0) {
        const of = formula.slice(formula.indexOf('(', end) + 1, one.start).replaceAll(/\s/g, '');
        return [{ counts: name === COUNTS, of }];
      }
    }
    return [];
  });
}
