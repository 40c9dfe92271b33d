import type { Neighbour } from '@kerfbook/workbook';
import { Dialog } from '../library/dialog.tsx';
import { Form } from './form.tsx';

interface DeleteFormProps {
  /** What goes, as the question names it: `rows 5 to 7`, `the sheet Base`. */
  readonly what: string;
  /** The verb with what it does it to: `Delete 3 rows`. */
  readonly does: string;
  /** Cells that stay and use what goes. */
  readonly users: readonly Neighbour[];
  /** Names of the checks that use it. */
  readonly checks: readonly string[];
  readonly onDelete: () => void;
  readonly onClose: () => void;
}

/** Asks before lines or a sheet go, and says who uses what is in them (G40). */
export function DeleteForm({ what, does, users, checks, onDelete, onClose }: DeleteFormProps) {
  return (
    <Dialog title={`Delete ${what}?`} onClose={onClose}>
      <Form
        does={does}
        removes
        onClose={onClose}
        onDo={() => {
          onClose();
          onDelete();
        }}
      >
        {users.length === 0 ? <p>No other formula uses {what}.</p> : null}
        <Users
          says={`${one(users, 'cell uses', 'cells use')} ${what} and may then show #REF!`}
          users={users.map(({ address, label }) => [label, address])}
        />
        <Users
          says={`${one(checks, 'check uses', 'checks use')} ${what} and may then say "can't tell"`}
          users={checks.map((name) => [name])}
        />
        <p className="quiet">You can undo this.</p>
      </Form>
    </Dialog>
  );
}

const one = ({ length }: readonly unknown[], single: string, several: string): string =>
  length === 1 ? `One ${single}` : `${length} ${several}`;

const NAMED = 12;

interface UsersProps {
  readonly says: string;
  /** What each is called, and where it is. */
  readonly users: readonly (readonly [name: string, address?: string])[];
}

function Users({ says, users }: UsersProps) {
  if (users.length === 0) return null;
  // One more takes no more room than to say that there is one more.
  const shown = users.length === NAMED + 1 ? users : users.slice(0, NAMED);
  return (
    <div>
      <p>{says}:</p>
      <ul>
        {shown.map(([name, address]) => (
          <li key={address ?? name}>
            {name} {address === undefined ? null : <span className="quiet">{address}</span>}
          </li>
        ))}
        {shown.length === users.length ? null : <li>and {users.length - NAMED} more</li>}
      </ul>
    </div>
  );
}
