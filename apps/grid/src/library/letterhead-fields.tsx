import { type BookDocument, LIMITS } from '@kerfbook/workbook';
import { useId, useRef, useState } from 'react';
import { logoOf } from './logo.ts';

/** What stands of the shop at the head of a customer's page, each as it is typed; `''` where there is none. */
export interface Letterhead {
  readonly name: string;
  readonly address: string;
  readonly tax: string;
  /** A picture as a data URL. */
  readonly logo: string;
}

type Kept = NonNullable<BookDocument['letterhead']>;

export const typedLetterhead = ({ name, address, tax, logo }: Kept = {}): Letterhead => ({
  name: name ?? '',
  address: address ?? '',
  tax: tax ?? '',
  logo: logo ?? '',
});

/** A letterhead as a workbook keeps it; `null` where nothing is left of it. */
export function keptLetterhead(typed: Letterhead): Kept | null {
  const said = Object.entries(typed).flatMap(([key, text]) =>
    text.trim() === '' ? [] : [[key, text.trim()] as const],
  );
  return said.length === 0 ? null : Object.fromEntries(said);
}

interface LetterheadFieldsProps {
  readonly letterhead: Letterhead;
  readonly readOnly: boolean;
  readonly onChange: (letterhead: Letterhead) => void;
}

/** Asks for what stands of the shop at the head of a customer's page. */
export function LetterheadFields({ letterhead, readOnly, onChange }: LetterheadFieldsProps) {
  const field = useId();
  const chooser = useRef<HTMLInputElement>(null);
  const [says, setSays] = useState<string>();
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const made = await logoOf(file);
    setSays(made.ok ? undefined : made.says);
    if (made.ok) onChange({ ...letterhead, logo: made.logo });
  };
  return (
    <fieldset className="letterhead">
      <legend>Letterhead</legend>
      <p className="quiet">Your shop, at the head of the customer’s page.</p>
      <p className="about-line">
        <label htmlFor={`${field}name`}>Shop</label>
        <input
          id={`${field}name`}
          className="field"
          value={letterhead.name}
          maxLength={200}
          autoComplete="off"
          readOnly={readOnly}
          onChange={({ target }) => onChange({ ...letterhead, name: target.value })}
        />
      </p>
      <p className="about-line">
        <label htmlFor={`${field}address`}>Address</label>
        <textarea
          id={`${field}address`}
          className="field"
          rows={3}
          value={letterhead.address}
          maxLength={LIMITS.text}
          readOnly={readOnly}
          onChange={({ target }) => onChange({ ...letterhead, address: target.value })}
        />
        <span className="quiet">Street, town, phone, mail: a line each.</span>
      </p>
      <p className="about-line">
        <label htmlFor={`${field}tax`}>Tax number</label>
        <input
          id={`${field}tax`}
          className="field"
          value={letterhead.tax}
          maxLength={200}
          autoComplete="off"
          readOnly={readOnly}
          onChange={({ target }) => onChange({ ...letterhead, tax: target.value })}
        />
      </p>
      <div className="about-line">
        <span className="letterhead-word">Logo</span>
        {letterhead.logo === '' ? null : (
          <img className="letterhead-logo" src={letterhead.logo} alt="Your logo" />
        )}
        <input
          ref={chooser}
          type="file"
          accept="image/png,image/jpeg"
          hidden
          aria-label="Logo"
          onChange={({ currentTarget }) => {
            void take(currentTarget.files?.[0]);
            // The same file chosen again is a new wish.
            currentTarget.value = '';
          }}
        />
        {readOnly ? null : (
          <p className="actions">
            <button type="button" className="button" onClick={() => chooser.current?.click()}>
              Choose a picture
            </button>
            {letterhead.logo === '' ? null : (
              <button
                type="button"
                className="button"
                onClick={() => onChange({ ...letterhead, logo: '' })}
              >
                Remove the logo
              </button>
            )}
          </p>
        )}
      </div>
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
    </fieldset>
  );
}
