import {
  type CellView,
  editDistance,
  nameKey,
  nameProblem,
  parseAddress,
} from '@kerfbook/workbook';
import { useRef, useState } from 'react';
import { nameCurrent } from '../commands/usual.ts';
import { keysToCells } from '../page/keeps-keys.ts';
import type { Session } from '../session/session.ts';
import { rangeOf } from '../writing/writing.ts';

/** What is said of a word that names no cell, and what can be done with it. */
interface Unknown {
  readonly says: string;
  readonly answers: readonly { readonly says: string; readonly does: () => void }[];
}

/**
 * Shows the name or address of the current cell; a name or address typed here is gone to. What names no cell yet
 * names the current one, or is asked about where it may be a slip (G10).
 */
export function GoToBox({ session, cell }: { readonly session: Session; readonly cell: CellView }) {
  const here = cell.name ?? cell.address;
  const [text, setText] = useState<string>();
  const [unknown, setUnknown] = useState<Unknown>();
  const field = useRef<HTMLInputElement>(null);
  const leave = (): void => {
    setText(undefined);
    setUnknown(undefined);
  };
  /** The keys go to the cell: at once, and where it scrolls in or another sheet is being drawn, once it is there. */
  const letGo = (): void => {
    leave();
    // A grid that is drawn later takes the keys from no field that has them.
    field.current?.blur();
    session.focusGrid();
    keysToCells({ current: session });
  };
  const go = (to: string): boolean => {
    const at = session.book.find(to, session.at.sheet);
    if (at !== undefined) {
      session.go(at);
      letGo();
      return true;
    }
    const range = rangeOf(session.book, to, session.at.sheet);
    if (range === undefined) return false;
    const { sheet, area } = range;
    session.goSheet(sheet);
    session.select(area, { sheet, row: area.top, column: area.left });
    letGo();
    return true;
  };
  const name = (as: string): void => {
    const refused = nameCurrent(session, as);
    if (refused === undefined) letGo();
    else setUnknown({ says: refused, answers: [] });
  };
  const enter = (): void => {
    const wanted = text?.trim() ?? '';
    if (wanted === '') letGo();
    else if (!go(wanted)) {
      const asked = askedAbout(session, cell, wanted, { go, name });
      if (asked === undefined) name(wanted);
      else setUnknown(asked);
    }
  };
  return (
    <form
      className="go-to"
      onSubmit={(event) => {
        event.preventDefault();
        enter();
      }}
      onBlur={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget)) leave();
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape') letGo();
      }}
    >
      <input
        ref={field}
        aria-label="Name or address of the cell; type one to go there, or a new name for this cell"
        value={text ?? here}
        spellCheck={false}
        autoComplete="off"
        onFocus={(event) => event.target.select()}
        onChange={(event) => {
          setText(event.target.value);
          setUnknown(undefined);
        }}
      />
      {unknown === undefined ? null : (
        <div className="go-unknown" role="alert">
          {unknown.says}
          {unknown.answers.map(({ says, does }) => (
            <button key={says} type="button" className="button-plain" onClick={does}>
              {says}
            </button>
          ))}
        </div>
      )}
    </form>
  );
}

interface Can {
  readonly go: (to: string) => boolean;
  readonly name: (as: string) => void;
}

/** What is asked before a word becomes the current cell's name; `undefined`: nothing speaks against it. */
function askedAbout(
  session: Session,
  { address, name }: CellView,
  wanted: string,
  can: Can,
): Unknown | undefined {
  // Names that are refused say so themselves; an address is no name.
  if (parseAddress(wanted) !== undefined || /[:!]/.test(wanted)) {
    return { says: `There is no cell called ${wanted}.`, answers: [] };
  }
  const refused = session.mayShape()
    ? nameProblem(wanted)
    : { says: `There is no cell called ${wanted}.` };
  const calls = (as: string) => ({
    says: name === undefined ? `Name ${address} ${as}` : `Rename ${name} to ${as}`,
    does: () => can.name(as),
  });
  if (refused !== undefined) {
    const { says, offer } = { offer: undefined, ...refused };
    return { says, answers: offer === undefined ? [] : [calls(offer)] };
  }
  const near = session.book.names().find((one) => isSlip(wanted, one.name))?.name;
  if (near === undefined && name === undefined) return undefined;
  return {
    says: `There is no cell called ${wanted}.`,
    answers: [
      ...(near === undefined ? [] : [{ says: `Go to ${near}`, does: () => void can.go(near) }]),
      calls(wanted),
    ],
  };
}

/** Letters that are wrong, missing, too many or in another order in a slip, at the most. */
const SLIPS = 2;

/** Whether a word is a name but for a slip or two; names that differ in their digits are different names. */
function isSlip(word: string, name: string): boolean {
  const [a, b] = [nameKey(word), nameKey(name)];
  const letters = (text: string): string => text.replace(/\d/g, '');
  const size = Math.min(a.length, b.length);
  if (letters(a) === letters(b) || size < 5 || Math.abs(a.length - b.length) > SLIPS) return false;
  return editDistance(a, b) <= SLIPS;
}
