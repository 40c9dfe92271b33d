import {
  type At,
  coarser,
  type OpenWorkbook,
  type Pull,
  pullOf,
  showValue,
  snapped,
  stepped,
  withUnit,
} from '@kerfbook/workbook';
import { called } from './called.ts';
import { type Changes, READS_ONLY } from './changes.ts';
import type { Notices } from './notices.ts';
import type { Painting } from './painting.ts';
import { same } from './places.ts';
import type { Standing } from './standing.ts';
import type { Pulling } from './types.ts';

/** What pulling a number needs of the other rooms. */
interface Rooms {
  readonly standing: Standing;
  readonly notices: Notices;
  readonly painting: Painting;
  readonly changes: Changes;
}

/** Steps that a wide one is, at the least. */
const WIDE = 8;

/** Calls once the next frame is about to be drawn; where there are no frames, soon. */
function nextFrame(call: () => void): () => void {
  if (typeof requestAnimationFrame === 'undefined') {
    const timer = setTimeout(call);
    return () => clearTimeout(timer);
  }
  const frame = requestAnimationFrame(call);
  return () => cancelAnimationFrame(frame);
}

/**
 * A number that is pulled: each frame the workbook is what it would be with the value pulled to (rule U5).
 * Values that come faster than they can be followed are passed over; the newest one counts.
 */
export class Pulls {
  readonly #book: OpenWorkbook;
  readonly #standing: Standing;
  readonly #notices: Notices;
  readonly #painting: Painting;
  readonly #changes: Changes;
  #pull: Pull | undefined;
  /** What the workbook follows now, and what it is to follow next. */
  #tried = 0;
  #wanted = 0;
  #cancelFrame: (() => void) | undefined;

  constructor(book: OpenWorkbook, { standing, notices, painting, changes }: Rooms) {
    this.#book = book;
    this.#standing = standing;
    this.#notices = notices;
    this.#painting = painting;
    this.#changes = changes;
  }

  get now(): Pulling | undefined {
    return this.#standing.now.pulling;
  }

  /** How the number of a cell may be pulled now; undefined where it may not. */
  pullAt(at: At): Pull | undefined {
    if (!this.#changes.mayChange || this.#book.lockOf(at) !== undefined) return undefined;
    const cell = this.#book.cell(at);
    if (cell.formula !== undefined || cell.problem !== undefined) return undefined;
    return pullOf(cell, this.#showing(at));
  }

  /** Begins to pull the number of a cell. False where it has no range, or may not be changed. */
  begin(at: At, by: Pulling['by']): boolean {
    if (this.now !== undefined) this.keep();
    if (!this.#changes.mayChange) {
      this.#notices.say(READS_ONLY);
      return false;
    }
    const pull = this.pullAt(at);
    if (pull === undefined || !this.#changes.beginPull()) return false;
    this.#pull = pull;
    this.#tried = pull.value;
    this.#wanted = pull.value;
    this.#show(at, by, pull.step);
    this.#painting.repaint([at]);
    return true;
  }

  /** Pulls to the value nearest to this one on a grid of steps, within the range. */
  to(raw: number, step: number): void {
    const [pull, now] = [this.#pull, this.now];
    if (pull === undefined || now === undefined) return;
    this.#want(snapped(pull, raw, step), now, step, beyond(pull, raw));
  }

  /** Goes so many steps on, wide ones or the finest. */
  step(steps: number, wide: boolean): void {
    const [pull, now] = [this.#pull, this.now];
    if (pull === undefined || now === undefined) return;
    const step = wide ? coarser(pull, WIDE * pull.step) : pull.step;
    const next = stepped(pull, this.#wanted, steps, step);
    const end = steps > 0 ? next === pull.high : next === pull.low;
    this.#want(next, now, step, end ? (steps > 0 ? 'high' : 'low') : undefined);
  }

  /** How it is pulled now. */
  get pull(): Pull | undefined {
    return this.#pull;
  }

  /** Lets go: what it was pulled to is one change. */
  keep(): void {
    const [pull, now] = [this.#pull, this.now];
    if (pull === undefined || now === undefined) return;
    if (this.#wanted === pull.value) {
      this.drop();
      return;
    }
    this.#cancelFrame?.();
    if (this.#tried !== this.#wanted) this.#try(now);
    this.#end();
    this.#changes.keepPull();
    this.#painting.repaint([now.at]);
  }

  /** Leaves everything as it was. */
  drop(): void {
    const { now } = this;
    if (now === undefined) return;
    this.#cancelFrame?.();
    this.#end();
    const { shown } = this.#changes.dropPull(() => this.#book.cell(now.at));
    const says = `${called(now.at, this.#book)} as it was: ${shown.text}.`;
    this.#standing.set({ announcement: says });
  }

  #end(): void {
    this.#pull = undefined;
    this.#cancelFrame = undefined;
    this.#standing.clear('pulling');
  }

  #want(value: number, { at, by }: Pulling, step: number, end: Pulling['end']): void {
    this.#wanted = value;
    this.#show(at, by, step, end);
    this.#cancelFrame ??= nextFrame(() => this.#frame());
  }

  /** One frame: what was wanted last is followed, once nothing is left of what was before it. */
  #frame(): void {
    this.#cancelFrame = undefined;
    const { now } = this;
    if (now === undefined) return;
    if (this.#changes.followOn()) {
      if (this.#tried !== this.#wanted) this.#try(now);
    } else this.#cancelFrame = nextFrame(() => this.#frame());
  }

  #try({ at, end }: Pulling): void {
    const pull = this.#pull as Pull;
    this.#tried = this.#wanted;
    const { sheet, row, column } = at;
    const text = pull.entry(this.#wanted);
    const announced = (): string => {
      const { shown, unit } = this.#book.cell(at);
      const stop = end === undefined ? '' : `, the ${end === 'high' ? 'most' : 'least'} it takes`;
      return `${called(at, this.#book)} ${withUnit(shown.text, unit)}${stop}.`;
    };
    this.#changes.tryPull({ do: 'enter', sheet, cells: [{ row, column, text }] }, announced);
    if (this.#book.pending) this.#cancelFrame ??= nextFrame(() => this.#frame());
  }

  #show(at: At, by: Pulling['by'], step: number, end?: Pulling['end']): void {
    const { low, high } = this.#pull as Pull;
    const value = this.#wanted;
    const before = this.now;
    const unchanged =
      before !== undefined &&
      same(before.at, at) &&
      before.value === value &&
      before.step === step &&
      before.end === end;
    if (unchanged) return;
    this.#standing.set({
      pulling: {
        at,
        by,
        value,
        step,
        ...(low === undefined || high === undefined ? {} : { share: (value - low) / (high - low) }),
        ...(end === undefined ? {} : { end }),
      },
    });
  }

  #showing(at: At) {
    const { quantity, show } = this.#book.cell(at);
    return {
      system: this.#book.units,
      currency: this.#book.currency,
      ...(quantity === undefined ? {} : { quantity }),
      ...(show === undefined ? {} : { show }),
    };
  }

  /** `24 to 168 in, by 1 in`: the range of what is pulled, and its steps now. */
  words(): string {
    const [pull, now] = [this.#pull, this.now];
    if (pull === undefined || now === undefined) return '';
    const { unit } = this.#book.cell(now.at);
    const shown = (value: number): string => this.#written(now.at, value);
    const { low, high } = pull;
    const range =
      low === undefined
        ? `up to ${shown(high ?? 0)}`
        : high === undefined
          ? `${shown(low)} and more`
          : `${shown(low)} to ${shown(high)}`;
    const stop = now.end === undefined ? '' : `: the ${now.end === 'high' ? 'most' : 'least'}`;
    return `${withUnit(range, unit)}, by ${withUnit(shown(now.step), unit)}${stop}`;
  }

  /** A number of the shown unit as its cell shows it. */
  #written(at: At, value: number): string {
    const own = this.#pull?.own(value) ?? value;
    return showValue({ kind: 'number', number: own }, this.#showing(at)).text;
  }
}

function beyond({ low, high }: Pull, value: number): Pulling['end'] {
  if (high !== undefined && value >= high) return 'high';
  return low !== undefined && value <= low ? 'low' : undefined;
}
