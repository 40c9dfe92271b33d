import type { FormEvent, ReactNode } from 'react';

interface FormProps {
  /** The verb itself. */
  readonly does: string;
  /** It removes something. */
  readonly removes?: boolean;
  readonly onDo: () => void;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A dialog's form: what it does when it is sent, and the way out. */
export function Form({ does, removes = false, onDo, onClose, children }: FormProps) {
  return (
    <form
      className="asked"
      onSubmit={(event: FormEvent) => {
        event.preventDefault();
        onDo();
      }}
    >
      {children}
      <p className="actions">
        <button type="submit" className={removes ? 'button button-danger' : 'button button-main'}>
          {does}
        </button>
        <button type="button" className="button" onClick={onClose}>
          Cancel
        </button>
      </p>
    </form>
  );
}
