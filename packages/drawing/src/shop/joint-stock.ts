import { materialKind } from '@kerfbook/wood';
import { type OpenWorkbook, showValue } from '@kerfbook/workbook';
import type { StockItem } from './stock.ts';

/** Boards that a job lists itself: as that job may use them, and the line that they are of. */
export interface LineOfJob {
  readonly own: StockItem;
  readonly line: StockItem;
}

/** The stock of several workbooks as one. */
export interface JointStock {
  readonly all: readonly StockItem[];
  /** The lines of each job among them. */
  readonly ofJob: readonly (readonly LineOfJob[])[];
  /** Boards at hand that several list. */
  readonly notes: readonly string[];
  /** Prices that differ, and which is reckoned with. */
  readonly priceNotes: readonly string[];
}

/** What one job lists. */
interface Listed {
  readonly mark: string;
  readonly stock: readonly StockItem[];
}

/** One kind of board with every job that lists it. */
interface Kind {
  readonly listed: {
    readonly mark: string;
    readonly job: number;
    readonly item: StockItem;
  }[];
}

const CENT = 1e-6;

/** The same boards; those of which there is a number at hand are others than those that are bought. */
const keyOf = ({ material, thickness, width, length, price, atHand }: StockItem): string =>
  [
    materialKind(material),
    ...[thickness, width, length].map((mm) => mm.toFixed(2)),
    atHand === undefined ? 'bought' : price === 0 ? 'rack' : 'counted',
  ].join(' ');

/**
 * Merges what several workbooks list. The same boards have the lowest of their prices. Boards at hand that several list
 * lie on one rack and are counted once: as many as the one says that says most.
 */
export function jointStock(
  jobs: readonly Listed[],
  {
    source,
    format,
  }: {
    readonly source: Pick<OpenWorkbook, 'units' | 'currency'>;
    readonly format: (mm: number) => string;
  },
): JointStock {
  const kinds = new Map<string, Kind>();
  for (const [job, { mark, stock }] of jobs.entries()) {
    for (const item of stock) {
      const key = keyOf(item);
      const kind = kinds.get(key) ?? { listed: [] };
      kind.listed.push({ mark, job, item });
      kinds.set(key, kind);
    }
  }
  const money = (amount: number): string =>
    showValue(
      { kind: 'number', number: amount },
      { quantity: 'money', system: source.units, currency: source.currency },
    ).text;
  const ofJob: LineOfJob[][] = jobs.map(() => []);
  const notes: string[] = [];
  const priceNotes: string[] = [];
  const all = [...kinds.values()].map(({ listed }): StockItem => {
    const first = (listed[0] as Kind['listed'][number]).item;
    const price = Math.min(...listed.map(({ item }) => item.price));
    const counts = countsOf(listed);
    const line: StockItem = {
      ...first,
      price,
      ...(counts.length === 0 ? {} : { atHand: Math.max(...counts.map(({ count }) => count)) }),
    };
    for (const job of new Set(listed.map((one) => one.job))) {
      ofJob[job]?.push({ own: { ...line }, line });
    }
    const name = `${first.name === '' ? 'board' : first.name}, ${format(first.thickness)} × ${format(first.width)} × ${format(first.length)}`;
    const dearest = Math.max(...listed.map(({ item }) => item.price));
    if (dearest - price > CENT) {
      const each = listed.map(({ mark, item }) => `${mark} ${money(item.price)}`).join(', ');
      priceNotes.push(`${name}, has several prices: ${each}. The lowest is reckoned with.`);
    }
    if (counts.length > 1) {
      const each = counts.map(({ mark, count }) => `${mark} ${count}`).join(', ');
      notes.push(
        `${name}, is at hand in several workbooks: ${each}. It is taken to lie on one rack and counted once, ${line.atHand} in all.`,
      );
    }
    return line;
  });
  return { all, ofJob, notes, priceNotes };
}

/** How many each job says are at hand. */
function countsOf(
  listed: Kind['listed'],
): readonly { readonly mark: string; readonly count: number }[] {
  const counts = new Map<string, number>();
  for (const { mark, item } of listed) {
    if (item.atHand !== undefined) counts.set(mark, (counts.get(mark) ?? 0) + item.atHand);
  }
  return [...counts].map(([mark, count]) => ({ mark, count }));
}

/** The lines of a job with what those before it left at hand. */
export const remainingOf = (
  lines: readonly LineOfJob[],
  used: ReadonlyMap<StockItem, number>,
): readonly LineOfJob[] =>
  lines.map(({ own, line }) =>
    line.atHand === undefined
      ? { own, line }
      : { own: { ...own, atHand: line.atHand - (used.get(line) ?? 0) }, line },
  );
