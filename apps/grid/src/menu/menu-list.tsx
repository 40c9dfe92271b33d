import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import '../styles/menu.css';

/** Something that can be chosen in a menu. */
export interface Item {
  readonly says: string;
  readonly does: () => void;
  /** It removes something: written in the danger colour. */
  readonly removes?: true;
}

/** A point in the window. */
export interface MenuPlace {
  readonly x: number;
  readonly y: number;
}

interface MenuListProps {
  /** What it is about, to a screen reader. */
  readonly label: string;
  readonly place: MenuPlace;
  /** Items that belong together stand together. */
  readonly groups: readonly (readonly Item[])[];
  /** Told before what was chosen is done. */
  readonly onClose: (chosen: boolean) => void;
}

/** A menu at a point of the window: arrows go through it, a letter finds, Enter chooses, Escape leaves. */
export function MenuList({ label, place, groups, onClose }: MenuListProps) {
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
    element.current?.querySelector<HTMLButtonElement>('button')?.focus({ preventScroll: true });
  }, [place]);
  useEffect(() => {
    const away = (event: PointerEvent): void => {
      if (event.target instanceof Node && element.current?.contains(event.target) === true) return;
      onClose(false);
    };
    document.addEventListener('pointerdown', away, true);
    return () => document.removeEventListener('pointerdown', away, true);
  }, [onClose]);
  return (
    <div
      ref={element}
      className="menu"
      role="menu"
      aria-label={label}
      tabIndex={-1}
      style={{ left: at.x, top: at.y }}
      onContextMenu={(event) => event.preventDefault()}
      onKeyDown={(event) => {
        const buttons = [...(element.current?.querySelectorAll('button') ?? [])];
        const now = buttons.indexOf(document.activeElement as HTMLButtonElement);
        const to = (n: number): void => buttons[(n + buttons.length) % buttons.length]?.focus();
        if (event.key === 'ArrowDown') to(now + 1);
        else if (event.key === 'ArrowUp') to(now - 1);
        else if (event.key === 'Home') to(0);
        else if (event.key === 'End') to(buttons.length - 1);
        else if (event.key === 'Escape' || event.key === 'Tab') onClose(false);
        else if (!toLetter(event.key, buttons, now)) return;
        event.preventDefault();
        event.stopPropagation();
      }}
    >
      {groups
        .filter((items) => items.length > 0)
        .map((items) => (
          <div key={items[0]?.says} className="menu-group" role="none">
            {items.map(({ says, does, removes }) => (
              <button
                key={says}
                type="button"
                role="menuitem"
                tabIndex={-1}
                className={removes === true ? 'removes' : undefined}
                onClick={() => {
                  onClose(true);
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

/** A letter goes on to the next item that begins with it. */
function toLetter(key: string, buttons: readonly HTMLButtonElement[], now: number): boolean {
  if (key.length !== 1 || key === ' ') return false;
  const after = [...buttons.slice(now + 1), ...buttons.slice(0, now + 1)];
  const wanted = key.toLowerCase();
  after.find((one) => one.textContent?.toLowerCase().startsWith(wanted) === true)?.focus();
  return true;
}
