import type { BookStore } from '@kerfbook/keeping';
import type { DecimalMark } from '@kerfbook/workbook';
import { useEffect, useId, useState } from 'react';
import { decimalMark, setDecimalMark } from '../session/decimal-mark.ts';

const WORDS: Readonly<Record<DecimalMark, string>> = {
  point: '1,234.5',
  comma: '1.234,5',
};

const MARK_KEY = 'decimal-mark';

/** Reads numbers as their maker chose to type them on this device. */
export function useKeptDecimalMark(store: Pick<BookStore, 'get'>): void {
  useEffect(() => {
    store.get(MARK_KEY).then(
      (kept) => {
        if (kept === 'point' || kept === 'comma') setDecimalMark(kept);
      },
      () => undefined,
    );
  }, [store]);
}

/** How numbers are typed on this device; what is saved is the same either way. */
export function DecimalMarkChoice({ store }: { readonly store: Pick<BookStore, 'set'> }) {
  const [mark, setMark] = useState(decimalMark);
  const field = useId();
  return (
    <p className="theme-choice">
      <label htmlFor={field}>Numbers typed as</label>
      <select
        id={field}
        className="button"
        value={mark}
        onChange={(event) => {
          const chosen: DecimalMark = event.target.value === 'comma' ? 'comma' : 'point';
          setMark(chosen);
          setDecimalMark(chosen);
          store.set(MARK_KEY, chosen).catch(() => undefined);
        }}
      >
        <option value="point">{WORDS.point}</option>
        <option value="comma">{WORDS.comma}</option>
      </select>
    </p>
  );
}
