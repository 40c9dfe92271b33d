import { showValue } from '@kerfbook/workbook';
import type { CellIn } from './coming-in.ts';

/** What a cell holds, as far as a glance needs it. */
export function shownOf(cell: CellIn | undefined): string {
  const { value, typed, format } = cell ?? {};
  if (typed !== undefined) return typed;
  switch (value?.kind) {
    case undefined:
      return '';
    case 'number':
      if (format?.kind === 'fraction') return asFraction(value.number);
      return String(Math.round(value.number * 10_000) / 10_000);
    case 'text':
      return value.text.trim();
    case 'logical':
      return value.logical ? 'yes' : 'no';
    case 'error':
      return value.word;
  }
}

/** As the file shows it: whole and fraction. */
const asFraction = (number: number): string =>
  showValue(
    { kind: 'number', number },
    { quantity: 'length', system: 'us', show: { as: 'fraction' }, currency: 'USD' },
  ).text;

/** More are no list of woods. */
const MOST_WOODS = 12;

/** Each once, whatever its capitals, in the order of the list. */
export function woodsIn(words: readonly string[]): readonly string[] {
  const found = new Map<string, string>();
  for (const word of words) {
    const wood = word.trim();
    if (wood !== '' && !found.has(wood.toLowerCase())) found.set(wood.toLowerCase(), wood);
  }
  return [...found.values()].slice(0, MOST_WOODS);
}
