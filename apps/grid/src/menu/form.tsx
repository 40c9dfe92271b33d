import type { FormEvent, ReactNode } from 'react';

interface FormProps {
  readonly does: string;
  readonly onDo: () => void;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A dialog's form: what it does when it is sent, and the way out. */
export function Form({ does, onDo, onClose, children }: FormProps) {
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
        <button type="submit" className="button button-main">
          {does}
        </button>
        <button type="button" className="button" onClick={onClose}>
          Leave it
        </button>
      </p>
    </form>
  );
}
