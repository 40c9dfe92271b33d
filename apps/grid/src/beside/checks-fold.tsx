import type { At, CheckState, OpenWorkbook } from '@kerfbook/workbook';
import { useEffect, useRef } from 'react';
import { GoTo } from '../page/go-to.tsx';
import { saidByWords } from '../page/words-for.ts';
import { holdInSight } from './into-sight.ts';
import type { Seen } from './seen.ts';
import { STATE_WORDS, StateIcon, worstFirst } from './state-icon.tsx';

/** So many frames a check has to come into sight. */
const FRAMES = 60;

interface ChecksFoldProps {
  readonly seen: Seen;
  /** A check that was asked for: it comes into sight and takes the focus. */
  readonly asked?: { readonly id: string } | undefined;
  /** Takes the maker to a cell. */
  readonly onGo: (at: At) => void;
  /** Opens a check to change it, or a new one; undefined where nothing may change. */
  readonly onCheck?: ((id: string | undefined) => void) | undefined;
}

/** Every check with its state, worst first, and the sentence that says what to do. */
export function ChecksFold({ seen, asked, onGo, onCheck }: ChecksFoldProps) {
  const list = useRef<HTMLUListElement>(null);
  useEffect(() => {
    if (asked === undefined) return undefined;
    let frame = 0;
    let letGo: (() => void) | undefined;
    // The fold opens first, what slides up comes into sight, and the grid takes the focus to the cell.
    const look = (left: number): void => {
      frame = requestAnimationFrame(() => {
        const check = list.current?.querySelector<HTMLElement>(
          `[data-check="${CSS.escape(asked.id)}"]`,
        );
        const isSeen = check?.checkVisibility({ visibilityProperty: true }) === true;
        if (left > 0 && (!isSeen || left > FRAMES - 2)) return look(left - 1);
        if (check) letGo = holdInSight(check);
      });
    };
    look(FRAMES);
    return () => {
      cancelAnimationFrame(frame);
      letGo?.();
    };
  }, [asked]);
  const checks = worstFirst(seen.book.checks());
  const add =
    onCheck === undefined ? null : (
      <button type="button" className="button" onClick={() => onCheck(undefined)}>
        New check
      </button>
    );
  if (checks.length === 0) {
    return (
      <>
        <p className="quiet">This workbook has no checks yet.</p>
        {add}
      </>
    );
  }
  return (
    <>
      <ul ref={list} className="checks">
        {checks.map((check) => (
          <Check key={check.id} book={seen.book} check={check} onGo={onGo} onCheck={onCheck} />
        ))}
      </ul>
      {add}
    </>
  );
}

interface CheckProps {
  readonly book: OpenWorkbook;
  readonly check: CheckState;
  readonly onGo: (at: At) => void;
  readonly onCheck: ChecksFoldProps['onCheck'];
}

function Check({ book, check, onGo, onCheck }: CheckProps) {
  const passes = check.state === 'pass';
  const places = passes ? [] : book.placesToMend(check.id);
  return (
    <li data-check={check.id} data-state={check.state} tabIndex={-1}>
      <StateIcon state={check.state} />
      <div>
        {/* What a failing check is called says what should be, and would read as if it were so: it comes after. */}
        <p>
          {/* One that cannot tell says that itself. */}
          {check.state === 'unknown' ? null : (
            <>
              <strong>{STATE_WORDS[check.state]}</strong>{' '}
            </>
          )}
          {passes ? check.name : saidByWords(check, book)}
        </p>
        {passes ? null : <p className="quiet">{check.name}</p>}
        {places.length === 0 ? null : (
          <p className="check-places">
            {places.map((at) => (
              <GoTo key={`${at.sheet} ${at.row} ${at.column}`} book={book} at={at} onGo={onGo} />
            ))}
          </p>
        )}
      </div>
      {onCheck === undefined ? null : (
        <button
          type="button"
          className="button-plain check-change"
          aria-label={`Edit the check ${check.name}`}
          onClick={() => onCheck(check.id)}
        >
          Edit
        </button>
      )}
    </li>
  );
}
