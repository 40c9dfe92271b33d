import type { CellDocument } from '@kerfbook/document';
import { OWN_UNITS, type UnitSystem } from '@kerfbook/wood';
import { readEntry } from '@kerfbook/workbook';
import type { Guess } from './guesses.ts';
import { placeKey } from './place-key.ts';
import type { KnownUnit } from './units-in.ts';

/** Cells of one sheet by their `placeKey`. */
export type SheetCells = Map<number, CellDocument>;

/** A guess, and what somebody said that its numbers are. */
export interface Agreed {
  readonly guess: Guess;
  readonly is: KnownUnit;
}

/**
 * Makes numbers what they are said to be. Those in another unit than the workbook's own are turned into it, as if they
 * had been typed with their unit, where no formula rests on them; others stay bare.
 * @returns the keys of those that stayed bare, `sheet row column`, with the unit that they are in
 */
export function inOwnUnits(
  cells: readonly SheetCells[],
  agreed: readonly Agreed[],
  { units, currency }: { readonly units: UnitSystem; readonly currency: string },
): ReadonlyMap<string, KnownUnit> {
  const bare = new Map<string, KnownUnit>();
  for (const { guess, is } of agreed) {
    const { quantity, unit } = is;
    const isOwn = OWN_UNITS[quantity][units] === unit;
    for (const { row, column } of guess.cells) {
      const key = placeKey(row, column);
      const cell = cells[guess.sheet]?.get(key);
      if (cell === undefined) continue;
      if (isOwn) {
        cells[guess.sheet]?.set(key, { ...cell, quantity });
        continue;
      }
      const turned = guess.turns
        ? readEntry(`${cell.typed ?? String(cell.value)} ${unit}`, {
            quantity,
            system: units,
            currency,
          })
        : undefined;
      if (turned?.kind !== 'value' || typeof turned.value !== 'number') {
        bare.set(`${guess.sheet} ${row} ${column}`, is);
        continue;
      }
      const { show: _show, ...rest } = cell;
      const typed = turned.typed === undefined ? {} : { typed: turned.typed };
      cells[guess.sheet]?.set(key, { ...rest, value: turned.value, ...typed, quantity });
    }
  }
  return bare;
}
