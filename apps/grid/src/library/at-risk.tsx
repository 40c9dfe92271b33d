import type { Bookcase } from '@kerfbook/keeping';
import { useEffect, useState } from 'react';
import { keepCopyLate } from './late-actions.ts';
import { useBookcase } from './use-bookcase.ts';

const WEEK = 7 * 24 * 60 * 60 * 1000;
const KEY = 'toldAtRisk';

/** Says that the browser may clear what is kept, once a week at most, and offers a file. */
export default function AtRisk({ bookcase }: { readonly bookcase: Bookcase }) {
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
  const putAway = () => {
    setDue(false);
    bookcase.store.set(KEY, Date.now()).catch(() => undefined);
  };
  return (
    <div className="at-risk" role="status">
      <p>This browser may clear saved workbooks when the device runs short of space.</p>
      <p className="actions">
        <button
          type="button"
          className="button"
          onClick={() => {
            keepCopyLate(bookcase, current.id);
            putAway();
          }}
        >
          Keep a copy as a file
        </button>
        <button type="button" className="button" onClick={putAway}>
          Not now
        </button>
      </p>
    </div>
  );
}
