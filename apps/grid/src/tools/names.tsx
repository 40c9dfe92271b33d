import { nameKey, withUnit } from '@kerfbook/workbook';
import { useId, useState } from 'react';
import { Dialog } from '../library/dialog.tsx';
import { NameForm } from '../library/name-form.tsx';
import { useSession } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';
import { sheetsThatRead } from '../shop/facts.ts';
import '../styles/menu.css';

interface NamesProps {
  readonly session: Session;
  readonly onClose: () => void;
}

/** Every named cell in one place: what it holds, who uses it, under which name (G37). */
export default function Names({ session, onClose }: NamesProps) {
  const { book } = session;
  useSession(session);
  const [wanted, setWanted] = useState('');
  const [unused, setUnused] = useState(false);
  const id = useId();
  const all = book.names().map(({ name, at }) => ({
    name,
    at,
    cell: book.cell(at),
    users: [
      ...book.usedBy(at).map(({ label }) => label),
      ...book.alsoUsedBy(at),
      ...sheetsThatRead(name),
    ],
  }));
  const found = all.filter(
    ({ name, users }) =>
      nameKey(name).includes(nameKey(wanted.trim())) && (!unused || users.length === 0),
  );
  return (
    <Dialog title="Names" onClose={onClose}>
      <div className="asked">
        <div className="asked-row">
          <label htmlFor={id}>
            Find
            <input
              id={id}
              className="field"
              type="search"
              value={wanted}
              spellCheck={false}
              onChange={(event) => setWanted(event.target.value)}
            />
          </label>
          <label className="asked-tick">
            <input
              type="checkbox"
              checked={unused}
              onChange={(event) => setUnused(event.target.checked)}
            />{' '}
            Only unused names
          </label>
        </div>
        <p role="status" className="quiet">
          {found.length} of {all.length} names.
        </p>
        <ul className="found-list">
          {found.map(({ name, at, cell, users }) => (
            <Row
              key={name}
              session={session}
              name={name}
              says={`${book.sheet(at.sheet)?.name ?? ''}!${cell.address}, ${withUnit(cell.shown.text, cell.unit)}`}
              users={users}
              onGo={() => {
                onClose();
                session.go(at);
              }}
            />
          ))}
        </ul>
      </div>
    </Dialog>
  );
}

interface RowProps {
  readonly session: Session;
  readonly name: string;
  readonly says: string;
  readonly users: readonly string[];
  readonly onGo: () => void;
}

const FEW = 6;

function Row({ session, name, says, users, onGo }: RowProps) {
  const [asking, setAsking] = useState<'rename' | 'remove'>();
  const [refused, setRefused] = useState<string>();
  const more = users.length > FEW ? ` and ${users.length - FEW} more` : '';
  const used = users.length === 0 ? 'not used' : `used by ${users.slice(0, FEW).join('; ')}${more}`;
  return (
    <li>
      <p>
        <button type="button" className="button-plain" onClick={onGo}>
          {name}
        </button>{' '}
        <span>{says}</span>
      </p>
      <p className="quiet">{used}</p>
      {!session.mayChange || session.book.locked || asking !== undefined ? null : (
        <span className="found-does">
          <button
            type="button"
            className="button-plain"
            aria-label={`Rename ${name}`}
            onClick={() => setAsking('rename')}
          >
            Rename
          </button>
          <button
            type="button"
            className="button-plain button-removes"
            aria-label={`Remove ${name}`}
            onClick={() => {
              const at = session.book.find(name);
              if (at === undefined) return;
              const result = session.apply({ do: 'nameCell', at, name: null });
              setRefused(result.ok ? undefined : result.says);
            }}
          >
            Remove
          </button>
        </span>
      )}
      {asking === 'rename' ? (
        <NameForm
          label={`New name for ${name}`}
          start={name}
          does="Rename"
          onName={async (to) => {
            const result = session.apply({ do: 'renameName', from: name, to });
            if (result.ok) setAsking(undefined);
            return result.ok ? { ok: true } : { ok: false, says: result.says };
          }}
          onCancel={() => setAsking(undefined)}
        />
      ) : null}
      {refused === undefined ? null : (
        <p className="complaint" role="alert">
          {refused}
        </p>
      )}
    </li>
  );
}
