import { type OpenWorkbook, withUnit } from '@kerfbook/workbook';
import { useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { Editing, Session } from '../session/session.ts';
import { accept, argumentHelp, isPhrase, optionsOf } from './completing.ts';
import { chosenOf, completeWith, type Option, type Read, readsOf } from './writing.ts';
import './entry-help.css';

interface HelpProps {
  readonly session: Session;
  /** A formula, or what may be the place of a part. */
  readonly editing: Editing;
}

/** What the list of each kind is called. */
const LISTS: Readonly<Record<Option['kind'], string>> = {
  function: 'Functions and named cells',
  cell: 'Functions and named cells',
  place: 'Ways to place a part',
  shape: 'Ways to shape a part',
  head: 'Heads of the parts table',
  joint: 'Joints and parts',
};

// From here on the list can be shown, and keys may choose in it.
completeWith({ optionsOf, accept });

/** Under the entry being written: what a word may become, which argument is asked for, what is read. */
export default function EntryHelp({ session, editing }: HelpProps) {
  const { book } = session;
  const options = useMemo(() => optionsOf(book, editing), [book, editing]);
  const call = useMemo(() => argumentHelp(book, editing), [book, editing]);
  const reads = useMemo(() => readsOf(book, editing), [book, editing]);
  const chosen = chosenOf(options, editing);
  const [first] = options;
  const place = usePlaceUnderEntry(editing);
  useCombobox(options.length > 0, chosen);
  if (options.length === 0 && call === undefined && reads.length === 0) return null;
  return (
    <div className="entry-help" ref={place.element} style={place.style}>
      {options.length === 0 ? null : (
        <div
          id="entry-options"
          role="listbox"
          tabIndex={-1}
          aria-label={LISTS[first?.kind ?? 'function']}
        >
          {options.map((option, i) => (
            <div
              key={`${option.kind} ${option.text}`}
              id={`entry-option-${i}`}
              role="option"
              tabIndex={-1}
              aria-selected={i === chosen}
              onPointerDown={(event) => {
                event.preventDefault();
                accept(session, option);
              }}
            >
              <strong>{option.text}</strong>
              {isPhrase(option) ? null : (
                <span className="option-kind quiet">
                  {option.kind === 'cell' ? 'named cell' : 'function'}
                </span>
              )}
              <span className="quiet">{option.says}</span>
            </div>
          ))}
        </div>
      )}
      {call === undefined ? null : (
        <p className="entry-call" aria-live="polite">
          <span>
            {call.name}(
            {call.args.map(({ name, optional }, i) => (
              <span key={name}>
                {i === 0 ? '' : ', '}
                {i === call.current ? (
                  <strong>{shown(name, optional)}</strong>
                ) : (
                  shown(name, optional)
                )}
              </span>
            ))}
            )
          </span>
          <span className="quiet">{call.says}</span>
        </p>
      )}
      {reads.length === 0 ? null : <Reads book={book} reads={reads} />}
    </div>
  );
}

const shown = (name: string, optional: boolean): string => (optional ? `[${name}]` : name);

function Reads({ book, reads }: { readonly book: OpenWorkbook; readonly reads: readonly Read[] }) {
  return (
    <p className="entry-reads">
      {reads.map(({ text, sheet, area }, i) => {
        const { top: row, left: column } = area;
        const one = area.top === area.bottom && area.left === area.right;
        const cell = one ? book.cell({ sheet, row, column }) : undefined;
        const says = cell === undefined ? '' : ` ${withUnit(cell.shown.text, cell.unit)}`;
        return (
          <span key={text} data-hue={i % 4}>
            <b>{i + 1}</b> {text}
            <span className="quiet">{says}</span>
          </span>
        );
      })}
    </p>
  );
}

/** What may stand under the field that is written in, and is pressed meanwhile. */
const UNDER = ['.formula-line', '.finger-keys', '.beside-handle', '.did-line'];

/** How far down there is room under a field: to the next line of controls, or the end of the screen. */
function roomUnder(bottom: number): number {
  const tops = UNDER.flatMap((one) => {
    const box = document.querySelector(one)?.getBoundingClientRect();
    return box !== undefined && box.height > 0 && box.top >= bottom - 1 ? [box.top] : [];
  });
  return Math.min(window.innerHeight, ...tops);
}

/** Stands right under the field being written in, or above it where there is no room. */
function usePlaceUnderEntry(editing: Editing) {
  const element = useRef<HTMLDivElement>(null);
  const [style, setStyle] = useState<{ readonly left: number; readonly top: number }>();
  useLayoutEffect(() => {
    const field = document.querySelector<HTMLElement>(
      editing.from === 'cell' ? '.cell-entry' : '.line-entry',
    );
    if (field === null) return;
    const { left, top, bottom } = field.getBoundingClientRect();
    const { offsetHeight = 0, offsetWidth = 0 } = element.current ?? {};
    const below = bottom + 4;
    const room = below + offsetHeight <= roomUnder(bottom);
    const next = {
      left: Math.max(4, Math.min(left, window.innerWidth - offsetWidth - 8)),
      top: room ? below : Math.max(4, top - offsetHeight - 4),
    };
    setStyle((before) => (before?.left === next.left && before.top === next.top ? before : next));
  }, [editing]);
  return { element, style };
}

/** Tells a screen reader through the field which completion is chosen. */
function useCombobox(isOpen: boolean, chosen: number | undefined): void {
  useLayoutEffect(() => {
    const field = document.activeElement;
    if (!(field instanceof HTMLInputElement)) return undefined;
    field.setAttribute('aria-expanded', String(isOpen));
    if (chosen === undefined) field.removeAttribute('aria-activedescendant');
    else field.setAttribute('aria-activedescendant', `entry-option-${chosen}`);
    return () => {
      field.setAttribute('aria-expanded', 'false');
      field.removeAttribute('aria-activedescendant');
    };
  }, [isOpen, chosen]);
}
