import type { ShopTable } from '@kerfbook/workbook';
import { useState } from 'react';
import { ShapeColumns } from '../commands/shape-columns.tsx';
import { addSheet } from '../commands/sheets.ts';
import { StartTable } from '../commands/start-table.tsx';
import { checksOf, usersOf } from '../commands/structure.ts';
import { Dialog } from '../library/dialog.tsx';
import { NameForm } from '../library/name-form.tsx';
import { DeleteForm } from '../menu/delete-form.tsx';
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
    'A row for each board to buy or on the rack: the buying list chooses from it.',
  ],
  [
    'joints',
    'Joints table',
    'A row for each joint between parts, or cut in one: the shop sheets say where it is marked out.',
  ],
  [
    'steps',
    'Steps table',
    'A row for each step of the work, in order: others build from it, at a size of their own (Plan for others).',
  ],
  [
    'prices',
    'Price list',
    'A row for each wood and thickness as your yard asks for it, with the day: WOOD_PRICE reads it, and the buying list says which prices are old.',
  ],
  [
    'operations',
    'Operations table',
    'A row for each piece of work, with its hours: the days of the job are planned from it.',
  ],
  [
    'studies',
    'Studies table',
    'A row for each question about many sizes, woods or prices at once (What if).',
  ],
  [
    'variants',
    'Variants table',
    'A row for each variant of this workbook, compared side by side (What if).',
  ],
  [
    'hours',
    'Hours table',
    'A row each time an operation was worked on: how long it took, and what was spent.',
  ],
  [
    'words',
    'Words table',
    'A row for each text of the plan for others, with how it is said in a second language.',
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
  return (
    <Dialog title="New table" onClose={onClose}>
      {TABLES.every(([kind]) => there.has(kind)) ? (
        <p>This workbook has all of these. Anything else is written on a sheet of its own.</p>
      ) : null}
      {TABLES.map(([kind, says, means]) => (
        <div key={kind} className="question">
          <p>
            <strong>{says}</strong> {means}
          </p>
          <p className="actions">
            {there.has(kind) ? (
              <OnSheet session={session} sheet={there.get(kind) ?? ''} onGone={onClose} />
            ) : (
              <StartTable session={session} kind={kind} onStarted={onClose} />
            )}
            {kind === 'parts' || kind === 'stock' ? (
              <FromText session={session} kind={kind} onAsked={onClose} />
            ) : null}
            {kind === 'parts' ? <ShapeColumns session={session} onAdded={onClose} /> : null}
          </p>
        </div>
      ))}
      {TABLES.every(([kind]) => there.has(kind)) ? (
        <p className="actions">
          <button
            type="button"
            className="button"
            onClick={() => {
              addSheet(session);
              onClose();
            }}
          >
            New sheet
          </button>
        </p>
      ) : null}
    </Dialog>
  );
}

interface FromTextProps {
  readonly session: Session;
  readonly kind: 'parts' | 'stock';
  readonly onAsked: () => void;
}

/** Rows from a list that its maker has already, with the table where the workbook has none. */
function FromText({ session, kind, onAsked }: FromTextProps) {
  const ask = (): void => {
    onAsked();
    session.ask(kind);
  };
  return (
    <button type="button" className="button" onClick={ask}>
      {kind === 'parts' ? 'Parts from a text' : 'Boards from a text'}
    </button>
  );
}

interface OnSheetProps {
  readonly session: Session;
  readonly sheet: string;
  readonly onGone: () => void;
}

/** Where a table stands that the workbook has already, with the way there. */
function OnSheet({ session, sheet, onGone }: OnSheetProps) {
  const name = session.book.sheet(sheet)?.name;
  return (
    <>
      <span className="quiet">Already on the sheet {name}.</span>
      <button
        type="button"
        className="button"
        onClick={() => {
          session.goSheet(sheet);
          onGone();
        }}
      >
        Go to {name}
      </button>
    </>
  );
}

/** Renames the current sheet; formulas follow. */
export function RenameSheet({
  session,
  onClose,
}: {
  readonly session: Session;
  readonly onClose: () => void;
}) {
  const { sheet } = session.at;
  const name = session.book.sheet(sheet)?.name ?? '';
  return (
    <Dialog title={`Rename the sheet ${name}`} onClose={onClose}>
      <NameForm
        label="Sheet name"
        start={name}
        does="Rename"
        onName={async (to) => {
          const result = session.apply({ do: 'renameSheet', sheet, name: to });
          if (result.ok) onClose();
          return result.ok ? { ok: true } : { ok: false, says: result.says };
        }}
        onCancel={onClose}
      />
    </Dialog>
  );
}

/** Deletes the current sheet, after saying what uses it. */
export function DeleteSheet({
  session,
  onClose,
}: {
  readonly session: Session;
  readonly onClose: () => void;
}) {
  const [found] = useState(() => {
    const { sheet } = session.at;
    const { name = '', rows = 1, columns = 1 } = session.book.sheet(sheet) ?? {};
    const area = { top: 0, left: 0, bottom: rows - 1, right: columns - 1 };
    return {
      sheet,
      name,
      users: usersOf(session, sheet, area),
      checks: checksOf(session, sheet, area),
    };
  });
  const { sheet, name, users, checks } = found;
  return (
    <DeleteForm
      what={`the sheet ${name}`}
      does={`Delete ${name}`}
      users={users}
      checks={checks}
      onDelete={() => session.apply({ do: 'removeSheet', sheet })}
      onClose={onClose}
    />
  );
}
