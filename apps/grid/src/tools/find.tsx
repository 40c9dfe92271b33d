import { type RefObject, useId, useLayoutEffect, useMemo, useState } from 'react';
import { changeable, findAll, replaceAll } from '../commands/find.ts';
import { Dialog } from '../library/dialog.tsx';
import { FormulaText } from '../page/formula-text.tsx';
import { isFormula } from '../session/pointing.ts';
import type { Session } from '../session/session.ts';
import { type Ahead, NOTHING_AHEAD } from './keys-ahead.tsx';
import '../styles/menu.css';

const SHOWN = 60;
const WHERE = { entry: '', value: 'shown', remark: 'remark' } as const;

/** Looks for a text on all sheets, in entries, shown values and remarks, and replaces it (G60). */
export default function Find({
  session,
  ahead,
  onClose,
}: {
  readonly session: Session;
  /** What was typed before it was there. */
  readonly ahead: RefObject<Ahead>;
  readonly onClose: () => void;
}) {
  const { book } = session;
  const [wanted, setWanted] = useState('');
  const [by, setBy] = useState('');
  const [changes, setChanges] = useState(0);
  useLayoutEffect(() => {
    const { text } = ahead.current;
    ahead.current = NOTHING_AHEAD;
    if (text !== '') setWanted(text);
  }, [ahead]);
  const id = useId();
  const matches = useMemo(
    () => (changes < 0 ? [] : findAll(book, wanted.trim())),
    [book, wanted, changes],
  );
  const many = changeable(book, matches).length;
  return (
    <Dialog title="Find and replace" onClose={onClose}>
      <div className="asked">
        <div className="asked-row">
          <label htmlFor={`${id}f`}>
            Find
            <input
              id={`${id}f`}
              className="field"
              value={wanted}
              spellCheck={false}
              autoComplete="off"
              onChange={(event) => setWanted(event.target.value)}
            />
          </label>
          <label htmlFor={`${id}r`}>
            Replace with
            <input
              id={`${id}r`}
              className="field"
              value={by}
              spellCheck={false}
              autoComplete="off"
              onChange={(event) => setBy(event.target.value)}
            />
          </label>
        </div>
        <p role="status">{wanted.trim() === '' ? '' : `${matches.length} found.`}</p>
        {many === 0 || !session.mayChange ? null : (
          <p className="actions">
            <button
              type="button"
              className="button"
              onClick={() => {
                if (replaceAll(session, matches, wanted.trim(), by)) setChanges(changes + 1);
              }}
            >
              Replace in {many} {many === 1 ? 'place' : 'places'}
            </button>
            <span className="quiet">One undo brings them all back.</span>
          </p>
        )}
        <ul className="found-list">
          {matches.slice(0, SHOWN).map(({ at, where, text }) => {
            const cell = book.cell(at);
            const sheet = book.sheet(at.sheet)?.name ?? '';
            return (
              <li key={`${at.sheet} ${cell.address} ${where}`}>
                <button
                  type="button"
                  className="button-plain"
                  onClick={() => {
                    onClose();
                    session.go(at);
                  }}
                >
                  {cell.name ?? `${sheet}!${cell.address}`}
                </button>{' '}
                <span>{isFormula(text) ? <FormulaText says={text} /> : text}</span>{' '}
                <span className="quiet">{WHERE[where]}</span>
              </li>
            );
          })}
          {matches.length > SHOWN ? <li>and {matches.length - SHOWN} more</li> : null}
        </ul>
      </div>
    </Dialog>
  );
}
