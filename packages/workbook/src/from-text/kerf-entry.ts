import type { UnitSystem } from '@kerfbook/wood';
import { readEntry } from '../quantities/read.ts';

/** Why an entry is no width of a saw's cut, as a sentence; undefined where it is one, or still blank. */
export function kerfTrouble(entry: string, units: UnitSystem): string | undefined {
  if (entry.trim() === '') return undefined;
  const read = readEntry(entry, { quantity: 'length', system: units, currency: 'USD' });
  if (read.kind === 'unread') return read.says;
  if (read.kind === 'value' && typeof read.value === 'number' && read.value > 0) return undefined;
  return `The saw kerf is the width of the cut, such as ${units === 'us' ? '1/8' : '3.2'}.`;
}
