import {
  type RefObject,
  useEffect,
  useId,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { Popover } from '../library/popover.tsx';
import type { Command } from '../page/commands.ts';
import type { Session } from '../session/session.ts';
import { type Found, findAnything } from './finding.ts';
import { type Ahead, NOTHING_AHEAD } from './keys-ahead.tsx';
import './find-anything.css';

interface FindAnythingProps {
  readonly session: Session;
  readonly commands: readonly Command[];
  /** What was typed before it was there. */
  readonly ahead: RefObject<Ahead>;
  readonly onFunction: (name: string) => void;
  readonly onReplace: () => void;
  /** Back to the workbook's cells, which take the keys. */
  readonly onGo: () => void;
  readonly onClose: () => void;
}

/** One box for all there is: cells, names, sheets, functions and commands; Enter goes there. */
export default function FindAnything(props: FindAnythingProps) {
  const { session, commands, ahead, onFunction, onReplace, onGo, onClose } = props;
  const list = useRef<HTMLDivElement>(null);
  const [wanted, setWanted] = useState('');
  const [chosen, setChosen] = useState(0);
  const id = useId();
  const found = useMemo(
    () => findAnything(session.settled(), commands, wanted),
    [session, commands, wanted],
  );
  const now = Math.min(chosen, found.length - 1);
  useEffect(() => {
    list.current?.querySelector(`[id="${id}${now}"]`)?.scrollIntoView({ block: 'nearest' });
  }, [id, now]);
  const take = (one: Found | undefined): void => {
    if (one === undefined) return;
    onClose();
    switch (one.kind) {
      case 'cell':
        session.go(one.at);
        onGo();
        break;
      case 'sheet':
        session.goSheet(one.sheet);
        onGo();
        break;
      case 'function':
        onFunction(one.name);
        break;
      case 'command':
        one.does();
    }
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when it comes.
  useLayoutEffect(() => {
    const { text, isEntered } = ahead.current;
    ahead.current = NOTHING_AHEAD;
    if (text === '') return;
    setWanted(text);
    if (isEntered) take(findAnything(session.settled(), commands, text)[0]);
  }, []);
  const steps: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowUp: -1 };
  return (
    <Popover className="find-anything" label="Find" onClose={onClose}>
      <input
        className="field"
        role="combobox"
        aria-label="What to find"
        aria-expanded={found.length > 0}
        aria-controls={`${id}list`}
        aria-activedescendant={found.length > 0 ? `${id}${now}` : undefined}
        placeholder="Cell, name, sheet, function or command"
        value={wanted}
        spellCheck={false}
        autoComplete="off"
        onChange={(event) => {
          setWanted(event.target.value);
          setChosen(0);
        }}
        onKeyDown={(event) => {
          const step = steps[event.key];
          if (step !== undefined && found.length > 0) {
            setChosen((now + step + found.length) % found.length);
          } else if (event.key === 'Enter') take(found[now]);
          else return;
          event.preventDefault();
        }}
      />
      <div ref={list} id={`${id}list`} className="found" role="listbox" aria-label="Found">
        {found.map((one, i) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: keys are heard by the field, which keeps the focus.
          <div
            key={one.key}
            id={`${id}${i}`}
            className="found-one"
            role="option"
            tabIndex={-1}
            aria-selected={i === now}
            onClick={() => take(one)}
          >
            <span className="found-says">
              {one.says}
              {one.named === undefined ? null : <span className="found-name"> {one.named}</span>}
            </span>
            <span className="found-aside">{one.aside}</span>
          </div>
        ))}
      </div>
      <p className="found-foot">
        <span role="status">
          {wanted.trim() === ''
            ? ''
            : found.length === 0
              ? 'Nothing found.'
              : `${found.length} found.`}
        </span>
        <button
          type="button"
          className="button-plain"
          onClick={() => {
            onClose();
            onReplace();
          }}
        >
          Find and replace in cells
        </button>
      </p>
    </Popover>
  );
}
