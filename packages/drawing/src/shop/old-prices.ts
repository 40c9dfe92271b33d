import { listed, namesSameWood } from '@kerfbook/wood';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { knownTable, TableRow } from '../known-table.ts';
import { readStock } from './stock.ts';

/** Days after which a price is old where no cell named `price_days` says it. Common practice, no source. */
export const USUAL_PRICE_DAYS = 180;

type Source = Pick<OpenWorkbook, 'cell' | 'named' | 'sheet' | 'tables' | 'units' | 'value'>;

/** A row of the price list with its day. */
interface Asked {
  readonly wood: string;
  /** What tells it from other prices of its wood: thickness, grade. */
  readonly of: string;
  readonly day: number;
  /** The day as its cell shows it. */
  readonly said: string;
}

/**
 * Prices of the woods in the stock table that were asked for too long ago, a sentence for each wood and day, the oldest
 * first. Of several rows alike only the one that counts, which is the latest. A row without a day says nothing.
 * @param today the day, as `2026-10-05`
 */
export function oldPrices(book: Source, today: string): readonly string[] {
  const table = knownTable(book, 'prices');
  if (table === undefined) return [];
  const most = priceDays(book);
  const now = dayNumber(today);
  const woods = new Set(readStock(book).stock.map(({ material }) => material.trim().toLowerCase()));
  const meant = [...woods].filter((wood) => wood !== '').map(namesSameWood);
  const latest = new Map<string, Asked>();
  for (let i = table.first; i < table.end; i += 1) {
    const row = new TableRow(book, table, i);
    const wood = row.words('wood') ?? '';
    if (wood === '' || !meant.some((isMeant) => isMeant(wood))) continue;
    const day = row.number('day', 'a day');
    if (day === undefined) continue;
    const thickness = book.cell(row.at('thickness'));
    const size =
      thickness.value.kind === 'number' ? `${thickness.shown.text} ${thickness.unit}` : '';
    const of = [size, row.words('grade') ?? '', row.words('per') ?? '']
      .map((word) => word.trim())
      .filter((word) => word !== '');
    const key = [wood.toLowerCase(), ...of].join('\n');
    const before = latest.get(key);
    if (before !== undefined && before.day > day) continue;
    const said = book.cell(row.at('day')).shown.text;
    latest.set(key, { wood, of: size === '' ? 'any other thickness' : size, day, said });
  }
  const old = [...latest.values()].filter(({ day }) => now - day > most);
  return grouped(old)
    .toSorted(([one], [other]) => one.day - other.day)
    .map(([one, all]) => sentence(one, all, { now, most }));
}

/** The days after which a price is old, as the workbook says it. */
function priceDays(book: Pick<Source, 'named'>): number {
  const value = book.named('price_days')?.value;
  return value?.kind === 'number' && value.number > 0 ? value.number : USUAL_PRICE_DAYS;
}

/** Rows of one wood and one day together. */
function grouped(rows: readonly Asked[]): readonly (readonly [Asked, readonly Asked[]])[] {
  const groups = new Map<string, [Asked, Asked[]]>();
  for (const row of rows) {
    const key = `${row.wood.toLowerCase()}\n${row.day}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row, [row]]);
    else group[1].push(row);
  }
  return [...groups.values()];
}

function sentence(
  { wood, day, said }: Asked,
  rows: readonly Asked[],
  { now, most }: { readonly now: number; readonly most: number },
): string {
  const sizes = listed([...new Set(rows.map(({ of }) => of))]);
  const name = `${wood.charAt(0).toUpperCase()}${wood.slice(1)}`;
  return `${name}, ${sizes}: the price is of ${said}, ${now - day} days ago. Here prices are old after ${most} days: ask your yard again.`;
}

/** Days as a cell counts them: day 0 is the 30th of December 1899 (OpenDocument 1.3, part 4, 4.3.2). */
const dayNumber = (day: string): number => Date.parse(`${day}T00:00:00Z`) / 86_400_000 + 25_569;
