import { type ReactNode, useId, useState } from 'react';

interface NewPasswordProps {
  /** What the field is called. */
  readonly children: ReactNode;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** As few letters as a password may have; nothing else is asked of it. */
const FEWEST = 8;

/** A field for a password that is chosen: it can be looked at, so that nobody has to type it twice. */
export function NewPassword({ children, value, onChange }: NewPasswordProps) {
  const [shown, setShown] = useState(false);
  const asked = useId();
  return (
    <>
      <label>
        {children}
        <input
          className="field"
          type={shown ? 'text' : 'password'}
          value={value}
          required
          minLength={FEWEST}
          maxLength={256}
          autoComplete="new-password"
          autoCapitalize="off"
          spellCheck={false}
          aria-describedby={asked}
          onChange={(event) => onChange(event.target.value)}
        />
      </label>
      <p id={asked} className="quiet">
        At least {FEWEST} letters, of any kind; nothing else is asked. Three or four words that have
        nothing to do with each other are good.
      </p>
      <label className="shelf-check">
        <input type="checkbox" checked={shown} onChange={() => setShown(!shown)} />
        Show the password
      </label>
    </>
  );
}
