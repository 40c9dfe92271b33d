import { bookFormat, type CutItem, shopPlan } from '@kerfbook/drawing';
import { type BookStore, writeTrouble } from '@kerfbook/keeping';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { Session } from '../session/session.ts';
import { LeftOutBox } from './left-out.tsx';
import { keepTicks, readTicks, strayTicks, type Ticks, ticked, tickKey } from './ticks.ts';
import { lengthUnit } from './words.ts';
import './shop.css';
import './bench.css';

interface BenchViewProps {
  readonly session: Session;
  readonly store: BookStore;
  /** Whose ticks these are. */
  readonly bookId: string;
  readonly onClose: () => void;
}

/** The cut list on a tablet at the bench: large, one line a part, ticked off piece by piece. */
export default function BenchView({ session, store, bookId, onClose }: BenchViewProps) {
  const { book } = session;
  const [ticks, setTicks] = useState<Ticks>();
  const [says, setSays] = useState<string>();
  const heading = useRef<HTMLHeadingElement>(null);
  const shop = useMemo(() => shopPlan(book, 'cell'), [book]);
  const { items, pieces } = shop.list;
  useEffect(() => {
    heading.current?.focus();
    readTicks(store, bookId).then(setTicks, (error: unknown) => {
      setTicks({});
      setSays(`What was ticked before could not be read: ${writeTrouble(error)}`);
    });
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') onClose();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [store, bookId, onClose]);
  const tick = (item: CutItem, by: 1 | -1): void => {
    const next = ticked(ticks ?? {}, item, by);
    setTicks(next);
    keepTicks(store, bookId, next).then(
      () => setSays(undefined),
      (error: unknown) => setSays(`Not kept on this device: ${writeTrouble(error)}`),
    );
  };
  const done = items.reduce(
    (sum, item) => sum + Math.min(item.count, ticks?.[tickKey(item)] ?? 0),
    0,
  );
  const strays = ticks === undefined ? [] : strayTicks(ticks, items);
  return (
    <section className="bench-view" role="dialog" aria-modal="true" aria-label="At the bench">
      <header className="bench-head">
        <h2 ref={heading} tabIndex={-1}>
          {book.title}
        </h2>
        <p aria-live="polite">
          {done} of {pieces} pieces cut, sizes in {lengthUnit(book)}
        </p>
        <button type="button" className="button" onClick={onClose}>
          Back to the workbook
        </button>
      </header>
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      <p className="bench-caution">
        ▲ Guard and riving knife on, push sticks for narrow pieces, dust collection running. Measure
        the board before you cut it.
      </p>
      <LeftOutBox heading="Left out: not on this list" book={book} left={shop.unread} />
      <LeftOutBox
        heading="The cutting plan has no board for it"
        book={book}
        left={shop.plan === undefined ? [] : shop.unplanned}
      />
      {items.length === 0 && shop.unread.length === 0 ? (
        <p>There is no parts table with anything to cut yet.</p>
      ) : null}
      <ul className="bench-list">
        {items.map((item) => (
          <BenchLine
            key={tickKey(item)}
            item={item}
            hasTwin={items.some((one) => one !== item && one.name === item.name)}
            cut={ticks?.[tickKey(item)] ?? 0}
            write={bookFormat(book)}
            onTick={(by) => tick(item, by)}
          />
        ))}
      </ul>
      {shop.none.length === 0 ? null : (
        <p className="quiet">None wanted (count 0): {shop.none.join(', ')}.</p>
      )}
      {strays.length === 0 ? null : (
        <p className="bench-strays">
          Ticked before at sizes the workbook no longer has: {strays.length}{' '}
          {strays.length === 1 ? 'line' : 'lines'}. Measure those pieces before you use them.
        </p>
      )}
    </section>
  );
}

interface BenchLineProps {
  readonly item: CutItem;
  /** Another line is of the same name: only its size tells them apart. */
  readonly hasTwin: boolean;
  readonly cut: number;
  readonly write: (mm: number) => string;
  readonly onTick: (by: 1 | -1) => void;
}

function BenchLine({ item, hasTwin, cut, write, onTick }: BenchLineProps) {
  const { name, count, thickness, width, length, material } = item;
  const all = cut >= count;
  const size = `${write(thickness)} × ${write(width)} × ${write(length)}`;
  const called = hasTwin ? [name, material, size].filter(Boolean).join(', ') : name;
  return (
    <li className="bench-line" data-done={all}>
      <div>
        <strong>{name}</strong> <span className="quiet">{material}</span>
        <p className="bench-size">
          {write(thickness)} × {write(width)} × <b>{write(length)}</b>
        </p>
      </div>
      <p className="bench-count">
        {cut} of {count}
      </p>
      <p className="bench-keys">
        <button
          type="button"
          className="button"
          aria-label={`One less of ${called}`}
          disabled={cut === 0}
          onClick={() => onTick(-1)}
        >
          −
        </button>
        <button
          type="button"
          className="button button-main"
          aria-label={`One more of ${called} cut`}
          disabled={all}
          onClick={() => onTick(1)}
        >
          {all ? '✓' : 'Cut'}
        </button>
      </p>
    </li>
  );
}
