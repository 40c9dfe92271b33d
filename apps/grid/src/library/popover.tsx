import { type ReactNode, useEffect, useLayoutEffect, useRef } from 'react';

interface PopoverProps {
  readonly className: string;
  /** What a screen reader calls it. */
  readonly label: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A dialog without a head: its first control has the keys, and Escape or a press beside it closes it. */
export function Popover({ className, label, onClose, children }: PopoverProps) {
  const element = useRef<HTMLDialogElement>(null);
  // It takes the keys as soon as it is there.
  useLayoutEffect(() => element.current?.showModal(), []);
  useEffect(() => {
    const dialog = element.current;
    return () => dialog?.close();
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape is the key for it, and a dialog hears that itself.
    <dialog
      ref={element}
      className={className}
      aria-label={label}
      onClose={onClose}
      onClick={(event) => {
        if (event.target === element.current) onClose();
      }}
    >
      {children}
    </dialog>
  );
}
