import {
  OWN_TABLES,
  type OwnRow,
  type OwnTableDescription,
  type UnitSystem,
  usFromOwn,
} from '@kerfbook/wood';
import { CallRefused } from './described.ts';
import { person } from './sentences.ts';

const BY_KIND = new Map(OWN_TABLES.map((one) => [one.kind as string, one]));

export const ownTableOf = (kind: string): OwnTableDescription | undefined => BY_KIND.get(kind);

/**
 * The rows under the heads of an own table, in us units; a refusal where a head or a row cannot be
 * used, and the first error that stands in it. Cells are plain values.
 */
export function ownRows<E>(
  { kind, columns }: OwnTableDescription,
  data: readonly (readonly unknown[])[],
  system: UnitSystem,
  isError: (value: unknown) => value is E,
): readonly OwnRow[] | CallRefused | E {
  const [head = [], ...lines] = data;
  const words = head.map((cell) => (typeof cell === 'string' ? cell.trim().toLowerCase() : ''));
  const places = columns.map(({ heads }) => words.indexOf(heads));
  if (places[0] === -1) return new CallRefused('VALUE', person('E19', kind, columns[0].heads));
  const rows: OwnRow[] = [];
  for (const line of lines) {
    const row: Record<string, string | number> = {};
    for (const [i, { heads, quantity }] of columns.entries()) {
      const cell = line[places[i] ?? -1];
      if (isError(cell)) return cell;
      if (typeof cell === 'string' && cell.trim() !== '') {
        if (quantity !== 'text') {
          return new CallRefused('VALUE', person('E20', kind, heads, cell));
        }
        row[heads] = cell;
      }
      if (typeof cell === 'number') row[heads] = usFromOwn(quantity, cell, system);
    }
    if (row[columns[0].heads] !== undefined) rows.push(row);
  }
  return rows;
}
