import {
  type BookState,
  type CellDocument,
  type Formula,
  formulaOf,
  keptOf,
  nodesOf,
  type OtherUnits,
  readFormula,
  type Token,
  turned,
} from '@kerfbook/document';
import { type Quantity, type UnitSystem, usFromOwn } from '@kerfbook/wood';
import { contextOf } from '../book/context.ts';
import type { Meanings } from '../meaning/book.ts';
import type { Literal } from '../meaning/literals.ts';
import { allowInOther, inOther, showInOther } from '../quantities/convert.ts';
import { near, settled } from '../quantities/digits.ts';
import { readEntry } from '../quantities/read.ts';

/** What turning a workbook into other units needs to know of it. */
export interface Turning {
  readonly meanings: Meanings;
  readonly head: BookState['head'];
  readonly to: UnitSystem;
}

/** What of a cell depends on the units. */
const HELD = ['value', 'typed', 'formula', 'override', 'show', 'allow'] as const;

const without = (cell: CellDocument): CellDocument => {
  const { value: _v, typed: _t, formula: _f, override: _o, show: _s, allow: _a, ...rest } = cell;
  const { other: _other, ...traits } = rest;
  return traits;
};

const heldOf = (cell: CellDocument): OtherUnits =>
  Object.fromEntries(
    HELD.filter((key) => cell[key] !== undefined).map((key) => [key, cell[key]]),
  ) as OtherUnits;

const isSame = (a: CellDocument, b: CellDocument): boolean =>
  inOrder(heldOf(a)) === inOrder(heldOf(b));

const inOrder = (value: unknown): string =>
  JSON.stringify(value, (_key, one: unknown) =>
    one !== null && typeof one === 'object' && !Array.isArray(one)
      ? Object.fromEntries(Object.entries(one).sort(([a], [b]) => (a < b ? -1 : 1)))
      : one,
  );

/**
 * A cell in the units `to`. What it held there before comes back to the letter as long as it still means what
 * the cell holds; what turning back would not give is kept beside it.
 */
export function cellInOther(cell: CellDocument, sheet: string, turning: Turning): CellDocument {
  const back: Turning = { ...turning, to: turning.to === 'metric' ? 'us' : 'metric' };
  const { other, ...now } = cell;
  if (other !== undefined) {
    const before = { ...without(cell), ...other };
    if (isSame(plainInOther(before, sheet, back), now)) return before;
  }
  const next = plainInOther(now, sheet, turning);
  if (isSame(next, now) || isSame(plainInOther(next, sheet, back), now)) return next;
  return { ...next, other: heldOf(now) };
}

function plainInOther(cell: CellDocument, sheet: string, turning: Turning): CellDocument {
  const { quantity } = cell;
  const { formula } = cell;
  const turnedFormula =
    formula === undefined
      ? {}
      : { formula: formulaInOther(formulaOf(cell) as Formula, sheet, quantity, turning) };
  if (quantity === undefined) return { ...cell, ...turnedFormula };
  const { show, allow, value, typed, override, ...rest } = cell;
  const shown = show === undefined ? undefined : showInOther(show, quantity, turning.to);
  const traits: CellDocument = {
    ...rest,
    ...(shown === undefined ? {} : { show: shown }),
    ...(allow === undefined ? {} : { allow: allowInOther(allow, quantity, turning.to) }),
  };
  const held = {
    ...(value === undefined ? {} : { value }),
    ...(typed === undefined ? {} : { typed }),
  };
  return {
    ...traits,
    ...turnedFormula,
    ...(value === undefined ? held : entryInOther({ value, ...held }, traits, turning)),
    ...(override === undefined ? {} : { override: entryInOther(override, traits, turning) }),
  };
}

type Entry = NonNullable<CellDocument['override']>;

/** What was typed stays as long as it means the same in the other units: feet and inches do, a bare number not. */
function entryInOther(entry: Entry, traits: CellDocument, { to, head }: Turning): Entry {
  const { quantity } = traits;
  if (typeof entry.value !== 'number' || quantity === undefined) return entry;
  const value = inOther(quantity, entry.value, to);
  if (entry.typed === undefined) return { value };
  const read = readEntry(entry.typed, contextOf(traits, { ...head, units: to }));
  const means = read.kind === 'value' && typeof read.value === 'number' && near(read.value, value);
  return means ? { value, typed: entry.typed } : { value };
}

/** A formula, as it is kept, with the numbers in it that have a unit in those of the other system. */
export function formulaInOther(
  formula: Formula,
  sheet: string,
  quantity: Quantity | undefined,
  { meanings, to }: Turning,
): string {
  const { root, tokens } = formula;
  if (root === undefined) return keptOf(formula);
  const literals = meanings.literals(formula, sheet, quantity);
  const numbers = [...nodesOf(root)].filter((node) => node.kind === 'number');
  const places = tokens.flatMap(({ type }, at) => (type === 'number' ? [at] : []));
  // Numbers come in the order of the text, one a piece.
  if (literals.size === 0 || numbers.length !== places.length) return keptOf(formula);
  const next = new Map<number, Token>();
  numbers.forEach((node, i) => {
    const literal = literals.get(node);
    const at = places[i];
    if (literal === undefined || at === undefined) return;
    const { value: written } = tokens[at] as Token;
    if (literal.gauge === true) {
      if (to === 'metric') next.set(at, { type: 'string', value: `"No. ${written}"` });
      return;
    }
    next.set(at, { type: 'number', value: writtenInOther(written, literal, to) });
  });
  return keptOf(turned(formula, (token, at) => next.get(at) ?? token));
}

/** The same of a formula as it is kept. */
export const keptInOther = (
  kept: string,
  sheet: string,
  quantity: Quantity | undefined,
  turning: Turning,
): string => formulaInOther(readFormula(kept), sheet, quantity, turning);

/** Two numbers may come as one piece with the sign between them. */
function writtenInOther(written: string, literal: Literal, to: UnitSystem): string {
  const sign = written.startsWith('-') ? '-' : '';
  const value = literalInOther(Number(written.slice(sign.length)), literal, to);
  if (!Number.isFinite(value)) return written;
  return value < 0 && sign === '-' ? written : `${sign}${plainNumber(value)}`;
}

/** Formulas are written without exponents. */
const plainNumber = (value: number): string => {
  const text = String(value);
  return text.includes('e') ? value.toFixed(20).replace(/\.?0+$/, '') : text;
};

const FACTORS: readonly (readonly [keyof Literal['dims'], Quantity])[] = [
  ['length', 'length'],
  ['mass', 'mass'],
  ['force', 'force'],
  ['liquid', 'liquid'],
];

function literalInOther(value: number, { dims, between }: Literal, to: UnitSystem): number {
  const { heat = 0 } = dims;
  const isTemperature = heat === 1 && Object.keys(dims).length === 1;
  if (isTemperature && between !== true) return inOther('temperature', value, to);
  let metric = 1.8 ** -heat;
  for (const [base, quantity] of FACTORS) {
    metric *= (1 / usFromOwn(quantity, 1, 'metric')) ** (dims[base] ?? 0);
  }
  return settled(to === 'metric' ? value * metric : value / metric);
}
