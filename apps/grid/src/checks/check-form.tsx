import type { CheckDocument, OpenWorkbook } from '@kerfbook/workbook';
import { randomId } from '@kerfbook/workbook';
import { type FormEvent, useId, useState } from 'react';
import { Dialog } from '../library/dialog.tsx';
import type { Session } from '../session.ts';
import '../menu/menu.css';

interface CheckFormProps {
  readonly session: Session;
  /** The check to change; undefined for a new one. */
  readonly id: string | undefined;
  readonly onClose: () => void;
}

/** A rule that must hold: its formula, how bad it is when it does not, and the sentence that says so. */
export default function CheckForm({ session, id, onClose }: CheckFormProps) {
  const { book } = session;
  const old = book.checkForms().find((check) => check.id === id);
  const [name, setName] = useState(old?.name ?? '');
  const [formula, setFormula] = useState(old?.formula ?? '=');
  const [otherwise, setOtherwise] = useState<CheckDocument['otherwise']>(old?.otherwise ?? 'care');
  const [says, setSays] = useState(old?.says ?? '');
  const [complaint, setComplaint] = useState<string>();
  const field = useId();
  const save = (event: FormEvent): void => {
    event.preventDefault();
    const trouble = troubleWith(book, { name, formula, says });
    setComplaint(trouble);
    if (trouble !== undefined) return;
    const checks = book.document().checks;
    const check: CheckDocument = {
      id: old?.id ?? randomId('k'),
      name: name.trim(),
      sheet: old?.sheet ?? session.at.sheet,
      formula: book.keptFormula(formula),
      otherwise,
      says: says.trim(),
    };
    const next =
      old === undefined
        ? [...checks, check]
        : checks.map((one) => (one.id === check.id ? check : one));
    const result = session.apply({ do: 'setChecks', checks: next });
    if (result.ok) onClose();
    else setComplaint(result.says);
  };
  return (
    <Dialog title={old === undefined ? 'A new check' : 'Change a check'} onClose={onClose}>
      <form className="asked" onSubmit={save}>
        <p className="asked-part">
          <label htmlFor={`${field}n`}>What it is called</label>
          <input
            id={`${field}n`}
            className="field"
            value={name}
            maxLength={200}
            autoComplete="off"
            onChange={(event) => setName(event.target.value)}
          />
        </p>
        <p className="asked-part">
          <label htmlFor={`${field}f`}>What must be true</label>
          <input
            id={`${field}f`}
            className="field"
            value={formula}
            spellCheck={false}
            autoComplete="off"
            onChange={(event) => setFormula(event.target.value)}
          />
          <span className="quiet">Such as =knee_room&gt;=24, with names of cells.</span>
        </p>
        <p className="asked-part">
          <label htmlFor={`${field}o`}>When it is not</label>
          <select
            id={`${field}o`}
            className="field"
            value={otherwise}
            onChange={(event) => setOtherwise(event.target.value as CheckDocument['otherwise'])}
          >
            <option value="care">take care</option>
            <option value="stop">stop</option>
          </select>
        </p>
        <p className="asked-part">
          <label htmlFor={`${field}s`}>What to say then, and what to do</label>
          <textarea
            id={`${field}s`}
            className="field"
            rows={3}
            value={says}
            onChange={(event) => setSays(event.target.value)}
          />
          <span className="quiet">
            A name in braces shows what that cell holds: Knee room is {'{knee_room}'}.
          </span>
        </p>
        {complaint === undefined ? null : (
          <p className="complaint" role="alert">
            {complaint}
          </p>
        )}
        <p className="actions">
          <button type="submit" className="button button-main">
            Keep the check
          </button>
          {old === undefined ? null : (
            <button
              type="button"
              className="button"
              onClick={() => {
                const checks = book.document().checks.filter((one) => one.id !== old.id);
                session.apply({ do: 'setChecks', checks });
                onClose();
              }}
            >
              Delete the check
            </button>
          )}
          <button type="button" className="button" onClick={onClose}>
            Leave it
          </button>
        </p>
      </form>
    </Dialog>
  );
}

function troubleWith(
  book: OpenWorkbook,
  { name, formula, says }: Pick<CheckDocument, 'name' | 'formula' | 'says'>,
): string | undefined {
  if (name.trim() === '') return 'A check needs a name that makers will know it by.';
  if (!/^\s*=\s*\S/.test(formula)) return 'What must be true is a formula: it begins with =.';
  if (says.trim() === '') return 'Say what is wrong then, and what to do about it.';
  const value = book.evaluate(formula.trim());
  if (value.kind === 'error') return value.error.says;
  return value.kind === 'logical'
    ? undefined
    : 'The formula must come to true or false: compare two things.';
}
