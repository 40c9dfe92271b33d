import { LIMITS } from '@kerfbook/workbook';
import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import { clearSelected } from '../commands/commands.ts';
import { copyByCommand } from '../commands/copy-by-command.ts';
import { groupItems } from '../commands/groups.ts';
import { pasteBlock } from '../commands/pasting.ts';
import { columnInWords, sortable, sortRows } from '../commands/sort.ts';
import { insertLines, type Line, linesInWords } from '../commands/structure.ts';
import type { Area } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import type { Question } from '../session/types.ts';
import '../styles/menu.css';

interface MenuProps {
  readonly session: Session;
  readonly place: { readonly x: number; readonly y: number };
  readonly onAsk: (what: Question) => void;
  readonly onClose: () => void;
}

interface Item {
  readonly says: string;
  readonly does: () => void;
}

/** What can be done with what is selected; opened with the right button, a long press or the key. */
export default function Menu({ session, place, onAsk, onClose }: MenuProps) {
  const element = useRef<HTMLDivElement>(null);
  const [at, setAt] = useState(place);
  useLayoutEffect(() => {
    const { offsetWidth = 0, offsetHeight = 0 } = element.current ?? {};
    // What can be seen, which on a tablet may be less than the window.
    const { innerWidth, innerHeight, visualViewport } = window;
    const wide = Math.min(innerWidth, visualViewport?.width ?? innerWidth);
    const high = Math.min(innerHeight, visualViewport?.height ?? innerHeight);
    setAt({
      x: Math.max(4, Math.min(place.x, wide - offsetWidth - 4)),
      y: Math.max(4, Math.min(place.y, high - offsetHeight - 4)),
    });
    element.current?.querySelector<HTMLButtonElement>('button')?.focus();
  }, [place]);
  useEffect(() => {
    const away = (event: PointerEvent): void => {
      if (event.target instanceof Node && element.current?.contains(event.target) === true) return;
      onClose();
    };
    document.addEventListener('pointerdown', away, true);
    return () => document.removeEventListener('pointerdown', away, true);
  }, [onClose]);
  const groups = session.mayChange ? itemsOf(session, onAsk) : [];
  return (
    <div
      ref={element}
      className="menu"
      role="menu"
      aria-label="Selected cells"
      tabIndex={-1}
      style={{ left: at.x, top: at.y }}
      onKeyDown={(event) => {
        const buttons = [...(element.current?.querySelectorAll('button') ?? [])];
        const now = buttons.indexOf(document.activeElement as HTMLButtonElement);
        const to = (n: number): void => buttons[(n + buttons.length) % buttons.length]?.focus();
        if (event.key === 'ArrowDown') to(now + 1);
        else if (event.key === 'ArrowUp') to(now - 1);
        else if (event.key === 'Home') to(0);
        else if (event.key === 'End') to(buttons.length - 1);
        else if (event.key === 'Escape' || event.key === 'Tab') onClose();
        else return;
        event.preventDefault();
        event.stopPropagation();
      }}
    >
      {groups.map((items) => (
        <div key={items[0]?.says} className="menu-group" role="none">
          {items.map(({ says, does }) => (
            <button
              key={says}
              type="button"
              role="menuitem"
              tabIndex={-1}
              onClick={() => {
                onClose();
                does();
              }}
            >
              {says}
            </button>
          ))}
        </div>
      ))}
    </div>
  );
}

function itemsOf(session: Session, onAsk: MenuProps['onAsk']): readonly (readonly Item[])[] {
  const area = session.areas.at(-1);
  if (area === undefined) return [];
  const words = (line: Line): string => linesInWords(area, line);
  const { block } = session.state.value;
  const sorting = sortable(session);
  const lines = (line: Line): Item[] => [
    { says: `Insert before ${words(line)}`, does: () => insertLines(session, line, 'before') },
    { says: `Insert after ${words(line)}`, does: () => insertLines(session, line, 'after') },
    {
      says: `Delete ${words(line)}`,
      does: () => onAsk(line === 'row' ? 'removeRows' : 'removeColumns'),
    },
  ];
  return [
    [
      { says: 'Cut', does: () => copyByCommand(session, 'cut') },
      { says: 'Copy', does: () => copyByCommand(session, 'copy') },
      ...(hidesSome(session, area)
        ? [{ says: 'Copy what is in sight', does: () => copyByCommand(session, 'seen') }]
        : []),
      ...(block === undefined
        ? []
        : [
            { says: 'Paste here', does: () => pasteBlock(session, block, 'all') },
            { says: 'Paste values only', does: () => pasteBlock(session, block, 'values') },
            { says: 'Paste looks only', does: () => pasteBlock(session, block, 'formats') },
            {
              says: 'Paste turned, rows as columns',
              does: () => pasteBlock(session, block, 'transposed'),
            },
          ]),
      { says: 'Empty', does: () => clearSelected(session) },
    ],
    ...(sorting === undefined
      ? []
      : [
          [
            {
              says: `Sort by ${columnInWords(sorting.by)}, least first`,
              does: () => sortRows(session, 'last'),
            },
            {
              says: `Sort by ${columnInWords(sorting.by)}, most first`,
              does: () => sortRows(session, 'first'),
            },
          ],
        ]),
    [...lines('row'), ...sightItems(session, 'row'), ...groupItems(session)],
    [...lines('column'), ...sightItems(session, 'column')],
    [
      { says: 'What it is and how it looks …', does: () => onAsk('format') },
      { says: 'Name …', does: () => onAsk('name') },
      { says: 'Remark …', does: () => onAsk('remark') },
      { says: 'Mark by a check …', does: () => onAsk('mark') },
      {
        says: session.state.value.formulas === true ? 'Show results' : 'Show formulas',
        does: () => session.showFormulas(),
      },
    ],
  ];
}

function hidesSome({ book, at }: Session, area: Area): boolean {
  const { hidden = [], hiddenRows = [] } = book.sheet(at.sheet) ?? {};
  return (
    hiddenRows.some((row) => row >= area.top && row <= area.bottom) ||
    hidden.some((column) => column >= area.left && column <= area.right)
  );
}

/** Lines out of sight, and in view while the others scroll. */
function sightItems(session: Session, line: Line): readonly Item[] {
  const { sheet } = session.at;
  const view = session.book.sheet(sheet);
  const area = session.areas.at(-1);
  if (view === undefined || area === undefined) return [];
  const isRow = line === 'row';
  const [first, last] = isRow ? [area.top, area.bottom] : [area.left, area.right];
  const hidden = isRow ? view.hiddenRows : view.hidden;
  const frozen = isRow ? view.frozenRows : view.frozenColumns;
  const all = `${line}s`;
  const hide = (lines: readonly number[], away: boolean): void => {
    session.apply(
      isRow
        ? { do: 'hideRows', sheet, rows: lines, hidden: away }
        : { do: 'hideColumns', sheet, columns: lines, hidden: away },
    );
  };
  const keep = (count: number): void => {
    session.apply({ do: 'freeze', sheet, ...(isRow ? { rows: count } : { columns: count }) });
  };
  const items: Item[] = [];
  if (last < (isRow ? view.rows : view.columns)) {
    const lines = Array.from({ length: last - first + 1 }, (_, i) => first + i);
    items.push({ says: `Hide ${linesInWords(area, line)}`, does: () => hide(lines, true) });
  }
  if (hidden.length > 0) {
    const many = hidden.length === 1 ? `1 hidden ${line}` : `${hidden.length} hidden ${all}`;
    items.push({ says: `Show ${many}`, does: () => hide(hidden, false) });
  }
  if (last < LIMITS.frozen) {
    const upTo = isRow ? `row ${last + 1}` : columnInWords(last);
    items.push({ says: `Keep ${all} up to ${upTo} in view`, does: () => keep(last + 1) });
  }
  if (frozen > 0) items.push({ says: `Let all ${all} scroll`, does: () => keep(0) });
  return items;
}
