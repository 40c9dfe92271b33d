import { Suspense, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { STATE_WORDS, StateIcon, worstFirst } from '../beside/state-icon.tsx';
import type { MenuPlace } from '../menu/menu-list.tsx';
import { afterGridModule } from '../page/after-grid.ts';
import { later } from '../page/later.tsx';
import { ignoreLetGo } from '../page/let-go.ts';
import { useSessionBehind } from '../page/use-session.ts';
import { sheetsInSight } from '../session/places.ts';
import { mayPoint } from '../session/pointing.ts';
import type { Session } from '../session/session.ts';
import '../styles/menu.css';

const SheetMenu = later(afterGridModule(() => import('../tools/sheet-menu.tsx')));

/** How long a finger is held for a menu, ms. */
const HOLD = 550;

/** The sheets, each with the worst state of its checks, by shape and word. */
export function SheetList({ session }: { readonly session: Session }) {
  const current = useSyncExternalStore(session.state.watch, () => session.state.value.at.sheet);
  useSessionBehind(session);
  const checks = session.book.checks();
  const list = useRef<HTMLUListElement>(null);
  // Where the sheets are a line that is pushed along, the current one comes into sight.
  useEffect(() => {
    list.current
      ?.querySelector(`[data-sheet="${CSS.escape(current)}"]`)
      ?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [current]);
  const [menu, setMenu] = useState<MenuPlace & { readonly sheet: string }>();
  const opened = useRef<HTMLElement>(undefined);
  const held = useRef<ReturnType<typeof setTimeout>>(undefined);
  /** The menu of a sheet: at the pointer, or under what opens it. */
  const open = (sheet: string, by: HTMLElement, at?: MenuPlace): void => {
    if (!session.mayChange || mayPoint(session)) return;
    clearTimeout(held.current);
    // One that was asked for before may not have come yet: only the last one opens.
    session.closeMenu();
    opened.current = by;
    const { left, bottom } = by.getBoundingClientRect();
    setMenu({ sheet, ...(at ?? { x: left, y: bottom }) });
  };
  const close = (): void => {
    setMenu(undefined);
    // The keys go back to where they were, and where that is gone, to the cells.
    requestAnimationFrame(() => {
      if (document.activeElement !== document.body) return;
      if (opened.current?.isConnected === true) opened.current.focus();
      else session.focusGrid();
    });
  };
  return (
    <>
      <nav className="sheet-list" aria-label="Sheets">
        <ul ref={list}>
          {sheetsInSight(session.book, current).map(({ id, name, isHidden }) => {
            const [first] = worstFirst(checks.filter(({ sheet }) => sheet === id));
            const worst = first?.state;
            /** The state leads to its check: where it is pressed, or by Enter on the sheet one is on. */
            const isForCheck = ({ target, detail }: MouseEvent): boolean =>
              detail === 0
                ? id === current
                : target instanceof Element && target.closest('.sheet-state') !== null;
            return (
              <li key={id} data-sheet={id}>
                <button
                  type="button"
                  aria-current={id === current ? 'page' : undefined}
                  onMouseDown={(event) => {
                    // A formula being written keeps its focus: its maker points at another sheet.
                    if (mayPoint(session)) event.preventDefault();
                  }}
                  onClick={({ nativeEvent }) => {
                    const wasPointing = mayPoint(session);
                    const asked = isForCheck(nativeEvent);
                    session.goSheet(id);
                    if (first === undefined || worst === 'pass' || wasPointing || !asked) return;
                    session.showCheck(first.id);
                  }}
                  onContextMenu={(event) => {
                    event.preventDefault();
                    // The key for menus has no point of its own.
                    const at = { x: event.clientX, y: event.clientY };
                    open(id, event.currentTarget, event.button === 2 ? at : undefined);
                  }}
                  onPointerDown={({ pointerType, currentTarget }) => {
                    if (pointerType !== 'touch') return;
                    held.current = setTimeout(() => {
                      ignoreLetGo();
                      open(id, currentTarget);
                    }, HOLD);
                  }}
                  onPointerUp={() => clearTimeout(held.current)}
                  onPointerCancel={() => clearTimeout(held.current)}
                  onPointerLeave={() => clearTimeout(held.current)}
                >
                  <span className="sheet-name">{name}</span>
                  {isHidden ? <span className="quiet">hidden</span> : null}
                  {worst === undefined ? null : (
                    <span
                      className="sheet-state"
                      title={worst === 'pass' ? undefined : `Go to the check ${first?.name}`}
                    >
                      <StateIcon state={worst} />{' '}
                      <span className="sheet-state-word">{STATE_WORDS[worst]}</span>
                    </span>
                  )}
                </button>
                {session.mayChange ? (
                  <button
                    type="button"
                    className="sheet-key"
                    aria-haspopup="menu"
                    aria-label={`Menu of the sheet ${name}`}
                    title={`Menu of the sheet ${name}`}
                    onClick={(event) => open(id, event.currentTarget)}
                  >
                    ⋯
                  </button>
                ) : null}
              </li>
            );
          })}
        </ul>
      </nav>
      {/* Not within the list: its dialogs would look like the list's rows. */}
      {menu === undefined ? null : (
        <Suspense fallback={null}>
          <SheetMenu session={session} sheet={menu.sheet} place={menu} onClose={close} />
        </Suspense>
      )}
    </>
  );
}
