import {
  type BookDocument,
  type CellDocument,
  jobBegun,
  type RowDocument,
  type SheetDocument,
} from '@kerfbook/workbook';

/**
 * A workbook without what is one job's own: whom it is for, its number, its days, the state of the work, what it really
 * took, and which state of its plan was handed out.
 */
export function forAnotherJob(document: BookDocument): BookDocument {
  const {
    customer: _whom,
    job: _number,
    due: _day,
    agreed: _price,
    revision: _state,
    guide,
    ...rest
  } = jobBegun(document);
  const kept = withoutStart(withoutHours(rest));
  if (guide === undefined) return kept;
  const { published: _published, ...plan } = guide;
  return Object.keys(plan).length === 0 ? kept : { ...kept, guide: plan };
}

/** Tables of hours worked have their heads and formulas still, and nothing that was written under them. */
function withoutHours(document: BookDocument): BookDocument {
  const hours = document.tables.filter(({ kind }) => kind === 'hours');
  if (hours.length === 0) return document;
  const sheets = document.sheets.map((sheet) => {
    const emptied = hours
      .filter(({ sheet: id }) => id === sheet.id)
      .reduce((rows, { header, last }) => emptiedBetween(rows, header, last), sheet.rows);
    return emptied === sheet.rows ? sheet : ({ ...sheet, rows: emptied } as SheetDocument);
  });
  return { ...document, sheets: sheets as BookDocument['sheets'] };
}

/** The day on which its work begins, by the name that the days are planned from. */
const START = 'start_day';

/** Without the day on which the work of the one before began; one that is worked out stays. */
function withoutStart(document: BookDocument): BookDocument {
  const isStart = ({ name, value }: CellDocument): boolean => name === START && value !== undefined;
  const has = ({ cells }: RowDocument): boolean => Object.values(cells ?? {}).some(isStart);
  if (!document.sheets.some(({ rows }) => rows.some(has))) return document;
  const sheets = document.sheets.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row) => (has(row) ? emptied(row, isStart) : row)),
  }));
  return { ...document, sheets };
}

function emptiedBetween(
  rows: SheetDocument['rows'],
  header: string,
  last: string,
): SheetDocument['rows'] {
  const [from, to] = [header, last].map((id) => rows.findIndex((row) => row.id === id));
  if (from === undefined || to === undefined || from < 0) return rows;
  return rows.map((row, i) => (i > from && i <= to ? emptied(row) : row));
}

/** Without entries; how cells look, are read and what they take stays for the next ones. */
function emptied(row: RowDocument, which = (_: CellDocument): boolean => true): RowDocument {
  const cells = Object.entries(row.cells ?? {}).flatMap(([column, cell]) => {
    if (cell.formula !== undefined || !which(cell)) return [[column, cell] as const];
    const { value: _value, typed: _typed, remark: _remark, ...look } = cell;
    return Object.keys(look).length === 0 ? [] : [[column, look as CellDocument] as const];
  });
  const { cells: _cells, ...rest } = row;
  return cells.length === 0 ? rest : { ...rest, cells: Object.fromEntries(cells) };
}
