import { useId } from 'react';

interface MailToProps {
  /** Whose link it is, where there are several of these on a page. */
  readonly of?: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** Where a link is sent, at a club that has a mail server. */
export function MailTo({ of, value, onChange }: MailToProps) {
  const note = useId();
  const does = 'Send the link by e-mail to';
  return (
    <>
      <label>
        {does}
        <input
          className="field"
          type="email"
          value={value}
          maxLength={254}
          autoComplete="off"
          aria-describedby={note}
          {...(of === undefined ? {} : { 'aria-label': `${does}: ${of}` })}
          onChange={(event) => onChange(event.target.value)}
        />
      </label>
      <p id={note} className="quiet">
        May stay empty. The address is not kept.
      </p>
    </>
  );
}

/** What goes along with a question where an address was typed. */
export function mailedTo(typed: string): { readonly to?: string } {
  const to = typed.trim();
  return to === '' ? {} : { to };
}
