import { type ShopTable, shopTableEdit } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';

/**
 * Puts a table that the app knows on a sheet of its own, its heads written, and goes to its first row unless one stays here.
 * @returns false where the workbook has one, or may not be changed: the session has said why
 */
function startTable(session: Session, kind: ShopTable, here: boolean): boolean {
  const { book } = session;
  const edit = session.mayShape() ? shopTableEdit(book, kind) : undefined;
  if (edit === undefined || !session.apply(edit).ok) return false;
  const table = book.tables().find((one) => one.kind === kind);
  if (table === undefined) return false;
  if (here) return true;
  session.goSheet(table.sheet);
  session.go({ sheet: table.sheet, row: table.header + 1, column: 0 });
  requestAnimationFrame(() => session.focusGrid());
  return true;
}

const SAYS: Readonly<Partial<Record<ShopTable, string>>> = {
  operations: 'Start an operations table',
  hours: 'Start an hours table',
  prices: 'Start a price list',
};

interface StartTableProps {
  readonly session: Session;
  readonly kind: ShopTable;
  /** What closes or is left once the table is there. */
  readonly onStarted?: () => void;
  /** It is written where it is started: the sheet that it is on is not turned to. */
  readonly here?: boolean;
}

/** Starts a table that the workbook lacks, wherever that is said, and turns to it. */
export function StartTable({ session, kind, onStarted, here = false }: StartTableProps) {
  const start = (): void => {
    if (startTable(session, kind, here)) onStarted?.();
  };
  return (
    <button type="button" className="button" onClick={start}>
      {SAYS[kind] ?? `Start a ${kind} table`}
    </button>
  );
}
