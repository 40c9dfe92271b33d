import type { Scalar } from '@kerfbook/document';
import type { Placed } from './stated.ts';

/** Numbers from 0 up to 1, the same for the same seed. */
export type Chance = () => number;

/** A small generator of 32 bits: all that draws of inputs need. */
export function chanceOf(seed: number): Chance {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** What an input may be drawn from. */
type Domain =
  | { readonly list: readonly Scalar[] }
  | { readonly min: number; readonly max: number; readonly step: number };

/** Screws that a shop has: an input for them takes words and has no list. Common practice, no source. */
const SCREWS = ['No. 4', 'No. 6', 'No. 8', 'No. 10', 'No. 12', 'No. 14', '4 mm', '5 mm', '6 mm'];

/** Inputs without a range of their own stand in the stock table: what yards have, and less and more. */
const OF_STOCK: Readonly<Record<string, Domain>> = {
  width: { min: 1, max: 14, step: 0.25 },
  length: { min: 12, max: 192, step: 6 },
  price: { min: 0, max: 400, step: 5 },
  'at hand': { list: [null, null, 0, 1, 2, 3, 6, 12] as unknown as readonly Scalar[] },
};

/** An input that is drawn, and what from. */
export interface Drawn {
  readonly placed: Placed;
  readonly domain: Domain;
}

/** From a range or a list, or from what its heading in the stock table says; undefined for words of any kind. */
export function domainOf({ cell }: Placed, heading: string | undefined): Domain | undefined {
  const { allow, quantity } = cell;
  if (allow?.list !== undefined) return { list: allow.list };
  if (allow?.min !== undefined && allow.max !== undefined) {
    const step = allow.whole === true ? 1 : quantity === 'length' ? 1 / 16 : 1 / 100;
    return { min: allow.min, max: allow.max, step };
  }
  if (cell.name === 'screw_gauge') return { list: SCREWS };
  return heading === undefined ? undefined : OF_STOCK[heading];
}

/** Any value of the range or list, each as likely. */
export function anyOf(domain: Domain, chance: Chance): Scalar | null {
  if ('list' in domain)
    return domain.list[Math.floor(chance() * domain.list.length)] as Scalar | null;
  const { min, max, step } = domain;
  return Math.min(max, min + Math.round((chance() * (max - min)) / step) * step);
}

/** A value near another: a number up to a third more or less, or any other of a list. */
export function nearOf(was: Scalar | null, domain: Domain, chance: Chance): Scalar | null {
  if ('list' in domain || typeof was !== 'number') return anyOf(domain, chance);
  const { min, max, step } = domain;
  const to = was + Math.round(((chance() * 2 - 1) * Math.max(was / 3, 4 * step)) / step) * step;
  return Math.max(min, Math.min(max, to));
}
