import { shapeColumnsEdit } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';

/** Puts the columns for shapes behind the parts table's own, and goes to the first of them. */
function addShapeColumns(session: Session): boolean {
  const { book } = session;
  const edit = session.mayShape() ? shapeColumnsEdit(book) : undefined;
  const table = book.tables().find(({ kind }) => kind === 'parts');
  if (edit?.do !== 'insertColumns' || table === undefined || !session.apply(edit).ok) return false;
  session.goSheet(table.sheet);
  session.go({ sheet: table.sheet, row: table.header + 1, column: edit.at });
  requestAnimationFrame(() => session.focusGrid());
  return true;
}

interface ShapeColumnsProps {
  readonly session: Session;
  readonly onAdded: () => void;
}

/** Offers the columns for shapes where the parts table lacks some of them. */
export function ShapeColumns({ session, onAdded }: ShapeColumnsProps) {
  if (shapeColumnsEdit(session.book) === undefined) return null;
  const add = (): void => {
    if (addShapeColumns(session)) onAdded();
  };
  return (
    <button type="button" className="button" onClick={add}>
      Add columns for shapes
    </button>
  );
}
