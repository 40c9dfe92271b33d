import {
  type KeyboardEvent,
  type ReactNode,
  useEffect,
  useId,
  useLayoutEffect,
  useRef,
} from 'react';

interface DialogProps {
  readonly title: string;
  /** How it is laid out, where that is not as any dialog. */
  readonly className?: string;
  readonly onClose: () => void;
  /** Keys that nothing in it took. */
  readonly onKeyDown?: (event: KeyboardEvent<HTMLElement>) => void;
  readonly children: ReactNode;
}

/** What one types into or chooses from; what takes the keys only once one types in it says so. */
const FIELDS = `:is(input, select, textarea):not(:disabled, [hidden], [data-later], ${[
  'checkbox',
  'radio',
  'file',
]
  .map((type) => `[type="${type}"]`)
  .join(', ')})`;

/** A modal dialog under its title. Esc, the button and the app close it the same way. */
export function Dialog({ title: says, className, onClose, onKeyDown, children }: DialogProps) {
  const element = useRef<HTMLDialogElement>(null);
  const title = useRef<HTMLHeadingElement>(null);
  const heading = useId();
  // It takes the keys as soon as it is there.
  useLayoutEffect(() => {
    const dialog = element.current;
    dialog?.showModal();
    // The browser's own choice is the button that closes it: what one types into comes first, and
    // where there is nothing to type, the title.
    const field = dialog?.querySelector<HTMLElement>(FIELDS);
    (field ?? title.current)?.focus({ preventScroll: true });
    if (field instanceof HTMLInputElement) field.select();
  }, []);
  useEffect(() => {
    const dialog = element.current;
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={element}
      className={className}
      aria-labelledby={heading}
      onClose={onClose}
      onKeyDown={(event) => {
        onKeyDown?.(event);
        // On the title Enter does what the dialog is for, where it has one thing to do.
        if (event.key !== 'Enter' || event.target !== title.current) return;
        element.current?.querySelector('form')?.requestSubmit();
      }}
    >
      <div className="dialog-head">
        <h2 id={heading} ref={title} tabIndex={-1}>
          {says}
        </h2>
        <button type="button" className="button" onClick={onClose}>
          Close
        </button>
      </div>
      {children}
    </dialog>
  );
}
