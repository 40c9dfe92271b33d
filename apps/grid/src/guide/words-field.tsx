import { useId, useState } from 'react';
import type { Session } from '../session/session.ts';

interface WordsFieldProps {
  readonly session: Session;
  readonly label: string;
  readonly value: string;
  /** Letters it takes at the most. */
  readonly most: number;
  readonly hint?: string;
  readonly placeholder?: string;
  readonly isLong?: boolean;
  /** Puts it into the workbook once it is left; false where it was not taken, and stays as it is typed. */
  readonly onEnter: (text: string) => boolean;
}

/** Something that is said of the plan as a whole: written, and put in when it is left. */
export function WordsField(props: WordsFieldProps) {
  const { session, label, value, most, hint, placeholder, isLong = false, onEnter } = props;
  const [draft, setDraft] = useState<string>();
  const id = useId();
  const enter = (): void => {
    if (draft === undefined) return;
    if (draft === value || onEnter(draft)) setDraft(undefined);
  };
  const common = {
    id,
    className: 'field',
    value: draft ?? value,
    maxLength: most,
    autoComplete: 'off',
    readOnly: !session.mayChange,
    placeholder,
    'aria-describedby': hint === undefined ? undefined : `${id}hint`,
    onChange: ({ target }: { readonly target: { readonly value: string } }) =>
      setDraft(target.value),
    onBlur: enter,
  };
  return (
    <div className="plan-field">
      <label htmlFor={id}>{label}</label>
      {isLong ? (
        <textarea {...common} rows={3} />
      ) : (
        <input
          {...common}
          onKeyDown={({ key }) => {
            if (key === 'Enter') enter();
            else if (key === 'Escape') setDraft(undefined);
          }}
        />
      )}
      {hint === undefined ? null : (
        <p id={`${id}hint`} className="quiet">
          {hint}
        </p>
      )}
    </div>
  );
}
