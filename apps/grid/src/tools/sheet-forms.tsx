import { type ShopTable, shopTableEdit } from '@kerfbook/workbook';
import { useState } from 'react';
import { copySheet, moveSheet } from '../commands/sheets.ts';
import { checksOf, usersOf } from '../commands/structure.ts';
import { Dialog } from '../library/dialog.tsx';
import { NameForm } from '../library/name-form.tsx';
import type { Session } from '../session/session.ts';

const TABLES: readonly (readonly [kind: ShopTable, says: string, means: string])[] = [
  [
    'parts',
    'Parts table',
    'A row for each part: the drawing, the cut list and the shop sheets come from it.',
  ],
  [
    'stock',
    'Stock table',
    'A row for each board to buy or at hand: the buying plan chooses from it.',
  ],
];

/** Puts a table that the app knows on a sheet of its own, its heads written, ready to be typed into. */
export function NewTable({
  session,
  onClose,
}: {
  readonly session: Session;
  readonly onClose: () => void;
}) {
  const { book } = session;
  const there = new Map(book.tables().map(({ kind, sheet }) => [kind as string, sheet]));
  const begin = (kind: ShopTable): void => {
    const edit = shopTableEdit(book, kind);
    if (edit === undefined || !session.apply(edit).ok) return;
    onClose();
    const table = book.tables().find((one) => one.kind === kind);
    if (table === undefined) return;
    session.goSheet(table.sheet);
    session.go({ sheet: table.sheet, row: table.header + 1, column: 0 });
    requestAnimationFrame(() => session.focusGrid());
  };
  return (
    <Dialog title="A new table" onClose={onClose}>
      {TABLES.map(([kind, says, means]) => (
        <div key={kind} className="question">
          <p>
            <strong>{says}</strong> {means}
          </p>
          <p className="actions">
            {there.has(kind) ? (
              <span className="quiet">
                It is on the sheet {book.sheet(there.get(kind) ?? '')?.name}.
              </span>
            ) : (
              <button type="button" className="button" onClick={() => begin(kind)}>
                Begin a {says.toLowerCase()}
              </button>
            )}
          </p>
        </div>
      ))}
    </Dialog>
  );
}

const FEW = 8;

/** What can be done with the current sheet. */
export function ThisSheet({
  session,
  onClose,
}: {
  readonly session: Session;
  readonly onClose: () => void;
}) {
  const { sheet } = session.at;
  const view = session.book.sheet(sheet);
  const [users, setUsers] = useState<readonly string[]>();
  const [checks, setChecks] = useState<readonly string[]>([]);
  if (view === undefined) return null;
  const { name, rows, columns } = view;
  const sheets = session.book.sheets();
  const place = sheets.findIndex(({ id }) => id === sheet);
  const act = (does: () => void) => () => {
    onClose();
    does();
  };
  return (
    <Dialog title={`Sheet ${name}`} onClose={onClose}>
      <div className="asked">
        <NameForm
          label="Its name"
          start={name}
          does="Rename"
          onName={async (to) => {
            const result = session.apply({ do: 'renameSheet', sheet, name: to });
            if (result.ok) onClose();
            return result.ok ? { ok: true } : { ok: false, says: result.says };
          }}
          onCancel={onClose}
        />
        <p className="actions">
          <button
            type="button"
            className="button"
            disabled={place === 0}
            onClick={() => moveSheet(session, -1)}
          >
            One place earlier
          </button>
          <button
            type="button"
            className="button"
            disabled={place === sheets.length - 1}
            onClick={() => moveSheet(session, 1)}
          >
            One place later
          </button>
          <button type="button" className="button" onClick={act(() => copySheet(session))}>
            Copy it
          </button>
          <button
            type="button"
            className="button"
            disabled={sheets.length === 1}
            onClick={() => {
              const area = { top: 0, left: 0, bottom: rows - 1, right: columns - 1 };
              setUsers(usersOf(session, sheet, area).map(({ label }) => label));
              setChecks(checksOf(session, sheet, area));
            }}
          >
            Delete it
          </button>
        </p>
        {users === undefined ? null : (
          <div className="question">
            <p>
              {users.length === 0
                ? 'No formula on another sheet uses it.'
                : `Cells on other sheets use it and will show #REF!: ${users.slice(0, FEW).join('; ')}${users.length > FEW ? ` and ${users.length - FEW} more` : ''}.`}{' '}
              {checks.length === 0
                ? ''
                : `It is used by ${checks.slice(0, FEW).join('; ')}${checks.length > FEW ? ` and ${checks.length - FEW} more` : ''}. `}
              It can be undone.
            </p>
            <p className="actions">
              <button
                type="button"
                className="button button-main"
                onClick={act(() => session.apply({ do: 'removeSheet', sheet }))}
              >
                Delete the sheet
              </button>
              <button type="button" className="button" onClick={() => setUsers(undefined)}>
                Leave it
              </button>
            </p>
          </div>
        )}
      </div>
    </Dialog>
  );
}
