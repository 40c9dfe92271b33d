import type { UnitSystem } from '@kerfbook/wood';
import { readList } from '@kerfbook/workbook/from-text';
import type { CellIn, SheetIn } from './coming-in.ts';
import { shownOf, woodsIn } from './glance.ts';
import type { FoundTable } from './parts-list.ts';

/** Fewer lines that look like parts are chance. */
const FEWEST = 3;
/** A list is read as a text: a sheet with more rows is none, it is a table of something else. */
const MOST_ROWS = 500;
/** Columns that stand between a list's first and its last field, at the most. */
const MOST_COLUMNS = 20;
const SHOWN = 4;
const HEADS = ['part', 'count', 'thickness', 'width', 'length', 'material'] as const;

/**
 * Parts of a sheet that has no heads for them, read line by line as a maker writes them: `4 legs 1-1/2 x 1-1/2 x 28`.
 * Undefined where most of its lines are none.
 */
export function linesOfParts(
  sheet: SheetIn,
  index: number,
  units: UnitSystem,
): FoundTable | undefined {
  const rows = new Map<number, CellIn[]>();
  for (const cell of sheet.cells) {
    // What is worked out from other cells is not read as words.
    if (cell.formula !== undefined) return undefined;
    if (cell.value === undefined || cell.column >= MOST_COLUMNS) continue;
    const line = rows.get(cell.row) ?? [];
    line.push(cell);
    rows.set(cell.row, line);
  }
  if (rows.size < FEWEST || rows.size > MOST_ROWS) return undefined;
  const lines = [...rows].sort((a, b) => a[0] - b[0]);
  const text = lines
    .map(([, cells]) =>
      cells
        .sort((a, b) => a.column - b.column)
        .map((cell) => shownOf(cell).replaceAll(/[\t\r\n]/g, ' '))
        .join('\t'),
    )
    .join('\n');
  const read = readList(text, { kind: 'parts', units, money: units === 'us' ? '$' : '€' });
  const missed = read.unread.filter(({ expected }) => !expected).length;
  if (read.rows.length < FEWEST || missed > read.rows.length / 2) return undefined;
  const [first, last] = [lines[0]?.[0] ?? 0, lines.at(-1)?.[0] ?? 0];
  const texts = read.rows.map((row) => row.texts);
  return {
    sheet: index,
    header: first,
    last,
    heads: HEADS.map((head, column) => ({ head, column, called: head })),
    first: texts.slice(0, SHOWN).map((row) => HEADS.map((head) => row[head] ?? '')),
    count: texts.length,
    woods: woodsIn(texts.map(({ material = '' }) => material)),
    rows: texts,
    says: `${texts.length} lines of ${sheet.name} look like parts, such as "${read.rows[0]?.text.replaceAll('\t', ' ') ?? ''}".`,
  };
}
