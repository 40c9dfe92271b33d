import { type Done, notDone, writeTrouble } from '@kerfbook/keeping';
import { type FormEvent, type ReactNode, useId, useState } from 'react';

interface NameFormProps {
  readonly label: string;
  readonly start: string;
  readonly does: string;
  /** It is a number: a phone brings the keys for one. */
  readonly numeric?: boolean;
  /** What is asked besides the name; Enter in it sends the form too. */
  readonly children?: ReactNode;
  readonly onName: (name: string) => Promise<Done>;
  readonly onCancel: () => void;
}

/** Asks for a name; stays with its sentence when the name does not do. */
export function NameForm(props: NameFormProps) {
  const { label, start, does, numeric = false, children, onName, onCancel } = props;
  const [name, setName] = useState(start);
  const [says, setSays] = useState<string>();
  const field = useId();
  const complaint = useId();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const done = await onName(name).catch((error: unknown) =>
      notDone(`Not saved: ${writeTrouble(error)}`),
    );
    setSays(done.ok ? undefined : done.says);
  };
  return (
    <form className="name-form" onSubmit={(event) => void submit(event)}>
      <label htmlFor={field}>{label}</label>
      <input
        id={field}
        className="field"
        value={name}
        maxLength={250}
        inputMode={numeric ? 'numeric' : undefined}
        spellCheck={false}
        autoComplete="off"
        aria-invalid={says !== undefined}
        aria-describedby={says === undefined ? undefined : complaint}
        ref={focusOnce}
        onChange={(event) => {
          setName(event.target.value);
          setSays(undefined);
        }}
      />
      {children}
      {says === undefined ? null : (
        <p id={complaint} className="complaint" role="alert">
          {says}
        </p>
      )}
      <p className="actions">
        <button type="submit" className="button button-main">
          {does}
        </button>
        <button type="button" className="button" onClick={onCancel}>
          Cancel
        </button>
      </p>
    </form>
  );
}

/** The form is there because the maker asked for it: it takes the keys, its old name chosen. */
function focusOnce(field: HTMLInputElement | null): void {
  field?.focus();
  field?.select();
}
