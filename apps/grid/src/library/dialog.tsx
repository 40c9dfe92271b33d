import { type ReactNode, useEffect, useId, useRef } from 'react';

interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A modal dialog under its title. Esc, the button and the app close it the same way. */
export function Dialog({ title, onClose, children }: DialogProps) {
  const element = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => {
    const dialog = element.current;
    dialog?.showModal();
    // The browser's own choice is the button that closes it.
    const first = dialog?.querySelector<HTMLInputElement>('[data-first]');
    first?.focus();
    first?.select();
    return () => dialog?.close();
  }, []);
  return (
    <dialog ref={element} aria-labelledby={heading} onClose={onClose}>
      <div className="dialog-head">
        <h2 id={heading}>{title}</h2>
        <button type="button" className="button" onClick={onClose}>
          Close
        </button>
      </div>
      {children}
    </dialog>
  );
}
