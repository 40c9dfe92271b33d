import { type At, coarser, type Pull } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';
import { same } from '../session/session.ts';

/** How far a press may slip and still be a press, px. */
const SLIP = 4;
/** So far a number is pulled through its range, or through twice what it is, px. */
const THROUGH = 320;
/** So far beyond its cell's edge the pull is not slowed yet, and twice as slow after each so many more, px. */
const NEAR = 48;
const SLOWER_EVERY = 40;
/** Slower than this it gets nowhere. */
const SLOWEST = 1 / 32;
/** A step lasts so long at the least, px: less is no step that one can stop at. */
const LEAST = 2;
/** Steps that a pull goes through at the least, where the number itself is small. */
const STEPS = 64;
/** After so long without a key what was stepped to is kept, ms. */
const PAUSE = 700;

/**
 * Pulling with the pointer or a finger, from the sign in the cell: sideways, the slower the farther above or
 * below the cell. Letting go keeps it; Escape, another use of the finger and losing the window leave it.
 */
export class PullHand {
  readonly #session: Session;
  #end: () => void = () => undefined;

  constructor(session: Session) {
    this.#session = session;
  }

  /** Whether a press is on the sign of a cell. */
  isSign(target: EventTarget | null): boolean {
    return target instanceof Element && target.closest('.pull-sign') !== null;
  }

  /** A press on the sign. `across`: it went up or down instead, and is a press on the cell. */
  press(event: PointerEvent, at: At, across: () => void): void {
    this.#end();
    const cell = (event.target as Element).closest('.ag-cell')?.getBoundingClientRect();
    const { pulls } = this.#session;
    const { pointerId, pointerType, clientX, clientY } = event;
    let [x, raw] = [clientX, 0];
    const hears = new AbortController();
    const end = (): void => {
      hears.abort();
      document.documentElement.classList.remove('is-pulling');
      this.#end = () => undefined;
    };
    const leave = (): void => {
      end();
      if (pulls.now?.by === 'hand') pulls.drop();
    };
    const begins = (move: PointerEvent): boolean => {
      const [along, aside] = [Math.abs(move.clientX - clientX), Math.abs(move.clientY - clientY)];
      if (Math.max(along, aside) < SLIP) return false;
      if (along < aside && pointerType !== 'touch') {
        end();
        across();
        return false;
      }
      if (along < SLIP) return false;
      if (!pulls.begin(at, 'hand')) {
        end();
        return false;
      }
      document.documentElement.classList.add('is-pulling');
      raw = pulls.pull?.value ?? 0;
      return true;
    };
    const move = (moved: PointerEvent): void => {
      if (moved.pointerId !== pointerId) return;
      if (pulls.now === undefined && !begins(moved)) return;
      const { pull } = pulls;
      if (pull === undefined) return;
      const away = Math.max(
        0,
        (cell?.top ?? 0) - moved.clientY,
        moved.clientY - (cell?.bottom ?? 0),
      );
      const rate = (reachOf(pull) / THROUGH) * slowed(away);
      raw = within(pull, raw + (moved.clientX - x) * rate);
      x = moved.clientX;
      pulls.to(raw, coarser(pull, LEAST * rate));
    };
    const heard = { capture: true, signal: hears.signal };
    document.addEventListener('pointermove', move, heard);
    const isIt = (one: PointerEvent): boolean => one.pointerId === pointerId;
    document.addEventListener(
      'pointerup',
      (up) => {
        if (!isIt(up)) return;
        end();
        if (pulls.now?.by === 'hand') pulls.keep();
      },
      heard,
    );
    document.addEventListener('pointercancel', (one) => isIt(one) && leave(), heard);
    // Keys mean nothing while a hand is at it, but for the one that leaves it.
    const key = (pressed: KeyboardEvent): void => {
      if (pulls.now === undefined) return;
      pressed.preventDefault();
      pressed.stopPropagation();
      if (pressed.key === 'Escape') leave();
    };
    window.addEventListener('keydown', key, heard);
    window.addEventListener('blur', leave, heard);
    document.addEventListener('visibilitychange', leave, heard);
    this.#end = leave;
  }

  destroy(): void {
    this.#end();
  }
}

/** What a pull goes through in its usual length: all of its range, or where that is vast, what is near. */
function reachOf({ value, low, high, step }: Pull): number {
  const near = Math.max(2 * Math.abs(value), STEPS * step);
  return low === undefined || high === undefined ? near : Math.min(high - low, near);
}

const slowed = (away: number): number =>
  Math.max(SLOWEST, 2 ** (-Math.max(0, away - NEAR) / SLOWER_EVERY));

/** Beyond the end nothing is gathered: a pull back begins to move at once. */
const within = ({ low = -Infinity, high = Infinity }: Pull, value: number): number =>
  Math.max(low, Math.min(high, value));

/**
 * Pulling with keys: steps while they are held or pressed one soon after the other, and all of them one change. A
 * pause or any other key keeps it; Escape leaves it, as does losing the window while a key is down.
 */
export class PullKeys {
  readonly #session: Session;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #held = false;
  #hears: AbortController | undefined;

  constructor(session: Session) {
    this.#session = session;
  }

  /** A step of the current cell's number. False where it has no range or may not be changed. */
  step(by: 1 | -1, wide: boolean): boolean {
    const { pulls, at } = this.#session;
    const { now } = pulls;
    const goesOn = now?.by === 'keys' && same(now.at, at);
    if (!goesOn && !pulls.begin(at, 'keys')) return false;
    if (!goesOn) this.#hear();
    pulls.step(by, wide);
    this.#held = true;
    // While the key is down it goes on.
    clearTimeout(this.#timer);
    return true;
  }

  /** True where a key was for the pull alone; any that is not goes on to what it is for. */
  hears({ key, altKey }: KeyboardEvent): boolean {
    const { pulls } = this.#session;
    if (pulls.now?.by !== 'keys') return false;
    if (key === 'Escape') {
      this.#finish('drop');
      return true;
    }
    if (key === 'Alt' || key === 'Shift') return true;
    if (!(altKey && (key === 'ArrowUp' || key === 'ArrowDown'))) this.#finish('keep');
    return false;
  }

  destroy(): void {
    this.#finish('keep');
  }

  #hear(): void {
    this.#hears?.abort();
    this.#hears = new AbortController();
    const heard = { capture: true, signal: this.#hears.signal };
    window.addEventListener(
      'keyup',
      ({ key }) => {
        if (key === 'ArrowUp' || key === 'ArrowDown') this.#held = false;
        if (!this.#held) this.#wait();
      },
      heard,
    );
    window.addEventListener('blur', () => this.#finish(this.#held ? 'drop' : 'keep'), heard);
    document.addEventListener('pointerdown', () => this.#finish('keep'), heard);
  }

  #wait(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#finish('keep'), PAUSE);
  }

  #finish(how: 'keep' | 'drop'): void {
    clearTimeout(this.#timer);
    this.#hears?.abort();
    this.#hears = undefined;
    this.#held = false;
    const { pulls } = this.#session;
    if (pulls.now?.by === 'keys') pulls[how]();
  }
}
