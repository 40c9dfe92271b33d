import { Suspense, useEffect, useLayoutEffect, useRef } from 'react';
import { afterGridModule } from '../page/after-grid.ts';
import { exactWords } from '../page/exact-words.ts';
import { FormulaText } from '../page/formula-text.tsx';
import { kindInWords } from '../page/kind-words.ts';
import { later } from '../page/later.tsx';
import { useSession } from '../page/use-session.ts';
import { columnWidth } from '../session/on-screen.ts';
import { isFormula, mayPlace } from '../session/pointing.ts';
import type { Session } from '../session/session.ts';
import { shortOf } from '../sheet/fit.ts';
import { colouredTokens, paintTokens } from '../writing/colours.ts';
import { helpKey } from '../writing/writing.ts';
import { GoToBox } from './go-to-box.tsx';

const EntryHelp = later(afterGridModule(() => import('../writing/entry-help.tsx')));

/** The line above the grid: where, what it is, the entry or formula, and the exact value. */
export function FormulaLine({ session }: { readonly session: Session }) {
  const { at, editing, pulling } = useSession(session);
  const cell = session.book.cell(at);
  const was = session.wasShown(at);
  const width = columnWidth(session.book.sheet(at.sheet), at.column);
  const exact = [
    editing !== undefined || shortOf(cell, width) === undefined ? '' : cell.shown.text,
    cell.shown.exact === undefined ? '' : exactWords(cell.shown.exact),
  ].filter((one) => one !== '');
  const before =
    was === undefined || was === cell.shown.text ? [] : [`was ${was === '' ? 'empty' : was}`];
  return (
    <section className="formula-line" aria-label="Current cell">
      <GoToBox session={session} cell={cell} />
      <p className="cell-kind quiet">
        {pulling === undefined ? kindInWords(cell) : session.pulls.words()}
      </p>
      <Entry session={session} text={editing?.text ?? cell.entry} writing={editing !== undefined} />
      {cell.override === undefined || editing !== undefined ? null : (
        <p className="override-line">
          <span>
            Overridden. Its formula:{' '}
            <code>
              <FormulaText says={cell.formula ?? ''} />
            </code>
          </span>
          <button
            type="button"
            className="button-plain"
            aria-label={`Restore the formula of ${cell.name ?? cell.address}`}
            onClick={() =>
              session.apply({
                do: 'restore',
                sheet: at.sheet,
                cells: [{ row: at.row, column: at.column }],
              })
            }
          >
            Restore
          </button>
        </p>
      )}
      {editing !== undefined && (isFormula(editing.text) || mayPlace(session.book, editing)) ? (
        <Suspense fallback={null}>
          <EntryHelp session={session} editing={editing} />
        </Suspense>
      ) : null}
      {/* What it was also stands in what the last change did: a narrow line has no room for both. */}
      <p className="exact quiet" data-only-before={exact.length === 0 && before.length > 0}>
        {[...exact, ...before].join(', ')}
      </p>
    </section>
  );
}

interface EntryProps {
  readonly session: Session;
  readonly text: string;
  readonly writing: boolean;
}

/** The entry of the current cell: the same one that its editor in the grid writes. */
function Entry({ session, text, writing }: EntryProps) {
  const field = useRef<HTMLInputElement>(null);
  const { editing } = session;
  // The cell's editor writes while it has the focus; here only what it wrote is shown.
  const mine = editing?.from === 'line';
  useEffect(() => {
    const focused = document.activeElement === field.current;
    if (editing === undefined && focused) field.current?.blur();
    if (editing?.from === 'line' && !focused) field.current?.focus();
    // A completion or a reference pointed at moves the caret behind it.
    const caret = editing?.from === 'line' ? editing.caret : undefined;
    if (caret !== undefined && field.current?.selectionEnd !== caret) {
      field.current?.setSelectionRange(caret, caret);
    }
  }, [editing]);
  const under = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const element = under.current;
    if (element === null) return;
    paintTokens(element, editing === undefined ? [] : colouredTokens(session.book, editing));
    element.scrollLeft = field.current?.scrollLeft ?? 0;
  }, [session, editing]);
  return (
    <div className="line-entry-holder">
      <div ref={under} className="entry-colours" aria-hidden="true" />
      <input
        ref={field}
        className="line-entry"
        data-coloured={editing !== undefined && isFormula(editing.text)}
        onScroll={(event) => {
          if (under.current !== null) under.current.scrollLeft = event.currentTarget.scrollLeft;
        }}
        aria-label="Entry or formula"
        data-writing={writing}
        value={text}
        spellCheck={false}
        autoComplete="off"
        readOnly={!session.mayChange}
        inputMode={session.state.value.pad === true ? 'none' : 'text'}
        onFocus={() => {
          if (session.editing?.from === 'cell') session.commit();
          if (session.editing === undefined) session.begin('edit', 'line');
        }}
        role="combobox"
        aria-autocomplete="list"
        aria-expanded={false}
        aria-controls="entry-options"
        onChange={(event) =>
          session.write(event.target.value, event.target.selectionEnd ?? event.target.value.length)
        }
        onSelect={(event) => {
          const { value, selectionStart, selectionEnd } = event.currentTarget;
          if (mine && selectionStart === selectionEnd) session.write(value, selectionEnd ?? 0);
        }}
        onKeyDown={(event) => {
          if (event.nativeEvent.isComposing || !mine) return;
          const { selectionStart, selectionEnd } = event.currentTarget;
          if (helpKey(session, event, [selectionStart ?? 0, selectionEnd ?? 0])) {
            event.preventDefault();
            return;
          }
          if (event.key === 'Escape') session.cancel();
          else if (event.key === 'Enter' || event.key === 'Tab') {
            if (!session.commit()) {
              event.preventDefault();
              return;
            }
            const { at } = session;
            session.go(
              event.key === 'Enter' ? { ...at, row: at.row + 1 } : { ...at, column: at.column + 1 },
            );
          } else return;
          event.preventDefault();
        }}
        onBlur={({ currentTarget }) => {
          // Between the pad and the device's keyboard the entry goes on.
          if (currentTarget.dataset.keeps === 'true') return;
          if (session.editing?.from === 'line') session.commit();
        }}
      />
    </div>
  );
}
