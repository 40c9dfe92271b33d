import { MOST_HOURS } from '@kerfbook/days';
import { readEntry } from '@kerfbook/workbook';
import { asRead } from '../session/decimal-mark.ts';

/** Hours as a maker types them, such as `1 h 30 min`; a sentence where they cannot be read. */
export function hoursTyped(text: string): number | string {
  const entry = asRead(text, () => ({ quantity: 'duration' }));
  const read = readEntry(entry, { quantity: 'duration', system: 'us', currency: 'USD' });
  const hours = read.kind === 'value' && typeof read.value === 'number' ? read.value : Number.NaN;
  if (hours > 0 && hours <= MOST_HOURS) return hours;
  return `"${text.trim()}" is no time that was worked. Type it as 2 h, 90 min or 1 h 30 min.`;
}
