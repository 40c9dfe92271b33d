import { type RefObject, useLayoutEffect } from 'react';

/** What was typed before the box for it was there. */
export interface Ahead {
  /** Letters, as they would stand in its field. */
  readonly text: string;
  /** Enter came after them. */
  readonly isEntered: boolean;
}

/** Nothing was typed ahead. */
export const NOTHING_AHEAD: Ahead = { text: '', isEntered: false };

interface KeysAheadProps {
  /** Where the box finds it. */
  readonly ahead: RefObject<Ahead>;
  /** The maker does not want it any more. */
  readonly onClose: () => void;
}

/** Stands in for a box that is loaded late: keys are noted for its field, and none goes to a cell. */
export function KeysAhead({ ahead, onClose }: KeysAheadProps) {
  // Before the next key can come, as the box itself opens: none falls between the two.
  useLayoutEffect(() => {
    ahead.current = NOTHING_AHEAD;
    const onKey = (event: KeyboardEvent): void => {
      const { key } = event;
      if (event.ctrlKey || event.metaKey || event.altKey || /^F\d+$/.test(key)) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      const { text, isEntered } = ahead.current;
      if (key === 'Escape') onClose();
      else if (isEntered) return;
      else if (key === 'Enter') ahead.current = { text, isEntered: true };
      else if (key === 'Backspace') ahead.current = { text: text.slice(0, -1), isEntered };
      else if ([...key].length === 1) ahead.current = { text: text + key, isEntered };
    };
    // Ahead of the grid and of whatever else hears keys.
    window.addEventListener('keydown', onKey, { capture: true });
    return () => window.removeEventListener('keydown', onKey, { capture: true });
  }, [ahead, onClose]);
  return null;
}
