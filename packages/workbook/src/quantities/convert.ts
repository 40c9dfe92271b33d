import type { Allow, Show } from '@kerfbook/document';
import { ownFromUs, type Quantity, type UnitSystem, usFromOwn } from '@kerfbook/wood';
import { settled } from './digits.ts';
import { type Unit, unitOf, unitsOf } from './units.ts';

/** A number of a quantity in the own unit of the other system. */
export function inOther(quantity: Quantity, value: number, to: UnitSystem): number {
  const other =
    to === 'metric' ? ownFromUs(quantity, value, to) : usFromOwn(quantity, value, 'metric');
  return Number.isFinite(other) ? settled(other) : value;
}

/** Which entries a cell takes, in the units of the other system. */
export function allowInOther(allow: Allow, quantity: Quantity, to: UnitSystem): Allow {
  const { min, max, list } = allow;
  return {
    ...allow,
    ...(min === undefined ? {} : { min: inOther(quantity, min, to) }),
    ...(max === undefined ? {} : { max: inOther(quantity, max, to) }),
    ...(list === undefined ? {} : { list: list.map((one) => choiceInOther(one, quantity, to)) }),
  };
}

/** A choice that is a number is one of the cell's quantity; others are words. */
function choiceInOther(choice: string, quantity: Quantity, to: UnitSystem): string {
  const value = Number(choice);
  if (choice.trim() === '' || !Number.isFinite(value)) return choice;
  return String(inOther(quantity, value, to));
}

/**
 * How a number is written in the other system: its unit becomes the one of about the same size, inches in
 * fractions become the usual millimetres, and as many decimals as tell about the same.
 */
export function showInOther(show: Show, quantity: Quantity, to: UnitSystem): Show | undefined {
  const { unit, as, denominator, decimals, ...none } = show;
  const given = unit === undefined ? undefined : unitOf(quantity, unit);
  // A unit of the other system was asked for all along.
  if (given !== undefined && given.system === to) return show;
  const next =
    given === undefined || given.system === 'both' ? unit : unitLike(given, quantity, to);
  const isInches = quantity === 'length' && to === 'metric';
  const shown: Show = {
    ...none,
    ...(as === undefined || (isInches && as !== 'decimal' && as !== 'plain') ? {} : { as }),
    ...(next === undefined ? {} : { unit: next }),
    ...(denominator === undefined || isInches ? {} : { denominator }),
    ...(decimals === undefined
      ? {}
      : { decimals: decimalsIn(decimals, quantity, to, given, next) }),
  };
  return Object.keys(shown).length === 0 ? undefined : shown;
}

/** So many of the us unit of a quantity's own are one of the unit. */
function sizeOf({ system, over, under }: Unit, quantity: Quantity): number {
  const own = over / under;
  if (system !== 'metric' || quantity === 'temperature') return own;
  return usFromOwn(quantity, own, 'metric');
}

function unitLike(unit: Unit, quantity: Quantity, to: UnitSystem): string | undefined {
  const size = Math.log(sizeOf(unit, quantity));
  const away = (one: Unit): number => Math.abs(Math.log(sizeOf(one, quantity)) - size);
  const [nearest] = unitsOf(quantity)
    .filter(({ system }) => system === to)
    .sort((a, b) => away(a) - away(b));
  return nearest?.sign;
}

const MOST_DECIMALS = 10;

function decimalsIn(
  decimals: number,
  quantity: Quantity,
  to: UnitSystem,
  given: Unit | undefined,
  next: string | undefined,
): number {
  if (quantity === 'temperature') return decimals;
  const after = next === undefined ? undefined : unitOf(quantity, next);
  const ratio =
    given !== undefined && after !== undefined
      ? sizeOf(given, quantity) / sizeOf(after, quantity)
      : inOther(quantity, 1, to);
  const wanted = decimals - Math.round(Math.log10(ratio));
  return Math.min(MOST_DECIMALS, Math.max(0, wanted));
}
