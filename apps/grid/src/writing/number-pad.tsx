import { type CellView, quantityUnits } from '@kerfbook/workbook';
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { useSession } from '../page/use-session.ts';
import { isFormula } from '../session/pointing.ts';
import type { Editing, Session } from '../session/session.ts';
import { DrawnInch } from './drawn-inch.tsx';
import { type Written, withFraction, withoutLast, withSign } from './pad-keys.ts';
import './number-pad.css';

/** Units on keys of the pad: what stands on the key, and what it writes. */
const LENGTHS = { us: ['′', '″', 'mm'], metric: ['mm', 'cm', '″'] } as const;
const WRITES: Readonly<Record<string, string>> = { '′': "'", '″': '"', '−': '-' };
const SAYS: Readonly<Record<string, string>> = { '′': 'feet', '″': 'inches', '−': 'minus' };

/** Digits in the order in which a tape has its inches or centimeters: two lengths of it, one over the other. */
const TAPE = [
  ['1', '2', '3', '4', '5'],
  ['6', '7', '8', '9', '0'],
] as const;

/**
 * On a touch screen, for cells that take a number: a length as it is read off a rule. Whole ones on two lengths of
 * tape, the rest on the drawn inch over them, units and signs beside, where the thumbs are. The device's own keyboard
 * stays down meanwhile (G66).
 */
export function NumberPad({ session }: { readonly session: Session }) {
  const { at, editing, pad } = useSession(session);
  const [fine, setFine] = useState(false);
  // The text as a fraction's key left it: the next key knows that the number is whole.
  const fraction = useRef<string>(undefined);
  const cell = session.book.cell(editing?.at ?? at);
  const open = padIsFor(cell, editing, pad);
  useInSight(session, open);
  if (!open || !session.mayChange) return null;
  const isLength = cell.quantity === undefined || cell.quantity === 'length';
  const units = isLength
    ? LENGTHS[session.book.units]
    : quantityUnits(cell.quantity ?? '').slice(0, 3);
  // A metric length is written in whole millimeters and halves, and needs no fractions.
  const hasInch = isLength && session.book.units === 'us';
  const change = (by: (now: Written) => Written): void => {
    const now = session.editing;
    const next = by(now ?? { text: '', caret: 0 });
    if (now === undefined) session.begin('fresh', 'line', next.text);
    else session.write(next.text, next.caret);
    fraction.current = undefined;
  };
  const isWhole = (): boolean =>
    fraction.current !== undefined && session.editing?.text === fraction.current;
  const digit = (one: string): void => {
    // After a fraction's key the number is whole, and a digit begins the next one.
    const again = isWhole();
    change((now) => withSign(again ? { text: '', caret: 0 } : now, one));
  };
  const sign = (one: string): void => change((now) => withSign(now, WRITES[one] ?? one));
  const take = (one: string): void => {
    change((now) => withFraction(now, one));
    fraction.current = session.editing?.text;
  };
  const back = (): void => {
    const whole = isWhole();
    // On a cell that nothing is written in yet, what stands there is gone on with.
    if (session.editing === undefined) session.begin('edit', 'line');
    change((now) => withoutLast(now, whole));
  };
  const leave = (next: boolean): void => {
    if (!session.commit()) return;
    fraction.current = undefined;
    if (next) session.go(nextInput(session));
    else session.setPad(false);
    requestAnimationFrame(() => session.focusGrid());
  };
  const key = (says: string, does: () => void, more: KeyLooks = {}): ReactNode => (
    <Key key={says} says={says} does={does} {...more} />
  );
  return (
    <div className="number-pad" role="toolbar" aria-label="Number pad">
      {hasInch ? <DrawnInch fine={fine} onTake={take} /> : null}
      {TAPE[0].map((one) => key(one, () => digit(one), { looks: 'digit' }))}
      {[0, 1, 2].map((i) => {
        const one = units[i];
        return one === undefined ? (
          <span key={i} />
        ) : (
          key(one, () => sign(one), one.length > 2 ? {} : { looks: 'unit' })
        );
      })}
      {TAPE[1].map((one) => key(one, () => digit(one), { looks: 'digit' }))}
      {key('.', () => sign('.'), { looks: 'unit' })}
      {key('−', () => sign('−'), { looks: 'unit' })}
      {key('/', () => sign('/'), { name: 'over', looks: 'unit' })}
      {hasInch
        ? key(fine ? '1/8s' : '1/16s', () => setFine(!fine), {
            name: fine ? 'Eighths' : 'Sixteenths',
            looks: 'turn',
          })
        : key('.5', () => sign('.5'), { name: 'and a half', looks: 'unit' })}
      {key('⌫', back, { name: 'Delete the last' })}
      {key('ABC', () => toKeyboard(session), { name: 'Keyboard', looks: 'turn' })}
      {key('Cancel', () => session.cancel(), { looks: 'turn' })}
      {key('Next', () => leave(true), { wide: true })}
      {key('Done', () => leave(false), { wide: true, looks: 'done' })}
    </div>
  );
}

interface KeyLooks {
  /** What it is called where its sign does not say it. */
  readonly name?: string;
  readonly wide?: boolean;
  readonly looks?: 'digit' | 'unit' | 'turn' | 'done';
}

function Key({
  says,
  does,
  name,
  wide = false,
  looks,
}: KeyLooks & { readonly says: string; readonly does: () => void }) {
  return (
    <button
      type="button"
      className="pad-key"
      data-wide={wide}
      data-looks={looks}
      aria-label={name ?? SAYS[says] ?? says}
      // The field keeps the focus, and its caret.
      onPointerDown={(event) => event.preventDefault()}
      onMouseDown={(event) => event.preventDefault()}
      onClick={does}
    >
      {says}
    </button>
  );
}

/** Whether the pad writes in a cell now. */
export const padIsFor = (cell: CellView, editing: Editing | undefined, pad?: true): boolean =>
  pad === true && takesNumber(cell) && !isFormula(editing?.text ?? '');

/** What may be written in a cell is a number: not words, a list's choice, or what a formula comes to. */
function takesNumber({ allow, formula, role, quantity, value }: CellView): boolean {
  if (allow?.list !== undefined || formula !== undefined) return false;
  if (role === 'heading' || role === 'note') return false;
  if (quantity !== undefined) return quantity !== 'text' && quantity !== 'logical';
  return value.kind !== 'text' && value.kind !== 'logical';
}

/** Once the grid is as low as the pad leaves it, the cell is still seen. */
function useInSight(session: Session, open: boolean): void {
  useEffect(() => {
    if (!open) return;
    const frame = requestAnimationFrame(() => requestAnimationFrame(() => session.focusGrid()));
    return () => cancelAnimationFrame(frame);
  }, [session, open]);
}

/** The device's own keyboard takes the entry over. */
function toKeyboard(session: Session): void {
  if (session.editing === undefined) session.begin('edit', 'line');
  else session.toLine();
  session.setPad(false);
  const field = document.querySelector<HTMLInputElement>('.line-entry');
  if (field === null) return;
  // Only a field that gets the focus anew brings the keyboard up.
  field.inputMode = 'text';
  field.dataset.keeps = 'true';
  field.blur();
  delete field.dataset.keeps;
  field.focus();
}

/** How far down an input is looked for. */
const FAR = 60;

/** The next input below, or the cell below where none is near. */
function nextInput({ at, book }: Session) {
  const { rows = 0 } = book.sheet(at.sheet) ?? {};
  for (let row = at.row + 1; row < Math.min(rows, at.row + FAR); row += 1) {
    const next = { ...at, row };
    if (book.cell(next).role === 'input') return next;
  }
  return { ...at, row: at.row + 1 };
}
