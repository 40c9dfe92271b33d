import type { Bookcase } from '@kerfbook/keeping';
import { useEffect, useState } from 'react';
import { keepCopyLate } from './late-actions.ts';
import { useBookcase } from './use-bookcase.ts';

/** What a browser without the promise may do. */
export const MAY_CLEAR =
  'This browser may clear saved workbooks when the device runs short of space.';

const WEEK = 7 * 24 * 60 * 60 * 1000;
const KEY = 'toldAtRisk';

interface AtRiskProps {
  readonly bookcase: Bookcase;
  /** It is gone: the keys go back to the cells. */
  readonly onDismiss: () => void;
}

/** Says that the browser may clear what is kept, once a week at most, and offers a file. */
export default function AtRisk({ bookcase, onDismiss }: AtRiskProps) {
  const { keeping, current } = useBookcase(bookcase);
  const [due, setDue] = useState(false);
  useEffect(() => {
    if (keeping !== 'atRisk') return;
    bookcase.store.get(KEY).then(
      (told) => setDue(typeof told !== 'number' || Math.abs(Date.now() - told) > WEEK),
      () => setDue(true),
    );
  }, [bookcase, keeping]);
  if (keeping !== 'atRisk' || !due) return null;
  const dismiss = () => {
    setDue(false);
    bookcase.store.set(KEY, Date.now()).catch(() => undefined);
    onDismiss();
  };
  return (
    <div className="notices at-risk" role="status">
      <p>
        <span>{MAY_CLEAR}</span>
        <span className="actions">
          <button
            type="button"
            className="button"
            onClick={() => {
              keepCopyLate(bookcase, current.id);
              dismiss();
            }}
          >
            Save a copy as a file
          </button>
          <button type="button" className="button" onClick={dismiss}>
            Not now
          </button>
        </span>
      </p>
    </div>
  );
}
