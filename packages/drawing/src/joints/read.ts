import {
  type JointCellValue,
  type JointsReading,
  type JointsTable,
  readJointsTable,
} from '@kerfbook/functions/joints';
import type { CellValue } from '@kerfbook/workbook';
import type { PartsReading } from '../parts.ts';
import { endBelow, otherTables, type PartsSource } from '../parts-source.ts';
import { isBlank, written } from '../value-words.ts';

/** The first joints table of a workbook; undefined where it has none. */
export function readJoints(
  source: PartsSource,
  parts: Pick<PartsReading, 'parts' | 'none' | 'leftOut'>,
): JointsReading | undefined {
  const table = source.tables().find(({ kind }) => kind === 'joints');
  if (table === undefined) return undefined;
  const { sheet, header, last } = table;
  const cells: JointsTable = {
    sheet,
    header,
    end: Math.min(last + 1, endBelow(source, table)),
    columns: source.sheet(sheet)?.columns ?? 0,
    units: source.units,
    value: (at) => cellOf(source.value(at)),
  };
  const { joints, problems } = readJointsTable(cells, parts);
  return { joints, problems: [...otherTables(source, 'joints'), ...problems] };
}

function cellOf(value: CellValue): JointCellValue | undefined {
  if (isBlank(value)) return undefined;
  const said = { written: written(value) };
  if (value.kind === 'number') return { ...said, number: value.number };
  if (value.kind === 'text') return { ...said, text: value.text };
  return value.kind === 'error' ? { ...said, error: value.error.word } : said;
}
