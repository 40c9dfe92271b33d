import { buildScene, chooseEye, type Eye, readParts } from '@kerfbook/drawing';
import type { ReaderBook } from '@kerfbook/workbook/reader-book';
import { makingOf } from '../page/making.ts';
import { SectionMaker } from '../page/sections.ts';
import type { SectionsShown } from './sections-shown.ts';

/** How long is drawn on end, ms: a frame of a screen is 16.7, of which the browser wants its own part. */
const BUDGET = 6;

/** What waits beside sections: what the size comes to, where it is chosen. */
const PANEL = 'panel';
/** Sections that follow wherever one looks. */
const ALWAYS: readonly string[] = ['cover', 'checks'];

/** How the page is drawn now. */
export interface Drawn {
  readonly second: boolean;
  readonly day?: string;
}

/**
 * Draws the guide anew where it is otherwise than before. While a number is pulled, each frame draws of what is in sight as
 * much as it has time for, what has waited longest first; once it is let go, what is looked at comes at once and the rest
 * after it, the cutting plan first. What is not drawn yet says so (`aria-busy`).
 */
export class Redraw {
  readonly #book: ReaderBook;
  readonly #shown: SectionsShown;
  readonly #how: () => Drawn;
  readonly #followed: () => void;
  readonly #settled: () => void;
  #frame: number | undefined;
  #rest: ReturnType<typeof setTimeout> | undefined;
  /** Makes the sections of the size that is chosen now. */
  #maker: SectionMaker | undefined;
  /** Sections that are not as they should be at this size, in the order in which they became so. */
  readonly #waiting = new Set<string>();
  /** Sections that the cutting plan stands in: they wait until a number is let go. */
  #plans: ReadonlySet<string> = new Set(['needs', 'cutting-plan']);
  /** Somebody is told once nothing waits any more. */
  #tells = false;
  /** Looked for once: a drawing that turns while a number is pulled shows nothing. */
  #eye: Eye | undefined;

  constructor(
    book: ReaderBook,
    shown: SectionsShown,
    how: () => Drawn,
    told: { readonly followed: () => void; readonly settled: () => void },
  ) {
    this.#book = book;
    this.#shown = shown;
    this.#how = how;
    this.#followed = told.followed;
    this.#settled = told.settled;
  }

  /** Draws what the page came without: the figures of its steps and the grain of its boards. */
  complete(): void {
    const now = this.#now();
    this.#plans = new Set(now.ids.filter((id) => now.needsPlan(id)));
    for (const id of now.ids) {
      if (now.hasFigure(id) || id === 'cover' || id === 'cutting-plan') this.#waiting.add(id);
    }
    this.#goOn();
  }

  /** An input has another value; where it is being pulled this is said once a frame, and what is out of sight waits. */
  changed(pulling: boolean): void {
    this.stop();
    this.#maker = undefined;
    if (pulling) this.#pulled();
    else this.#letGo();
  }

  /** Draws nothing more: another one does from here on. */
  stop(): void {
    if (this.#frame !== undefined) cancelAnimationFrame(this.#frame);
    if (this.#rest !== undefined) clearTimeout(this.#rest);
    this.#frame = undefined;
    this.#rest = undefined;
  }

  /** Draws all that waits, at once: it is about to be printed. */
  finish(): void {
    if (this.#waiting.size === 0) return;
    this.stop();
    this.#draw(Number.POSITIVE_INFINITY, [...this.#waiting]);
    this.#ends();
  }

  /** What makes the sections now. */
  #now(): SectionMaker {
    this.#eye ??= chooseEye(buildScene(readParts(this.#book).parts));
    const { second, day } = this.#how();
    this.#maker ??= new SectionMaker(
      makingOf(this.#book, {
        ticks: true,
        second,
        eye: this.#eye,
        ...(day === undefined ? {} : { day }),
      }),
    );
    return this.#maker;
  }

  #pulled(): void {
    for (const id of [PANEL, ...ALWAYS, ...this.#shown.ids]) {
      this.#waiting.add(id);
      if (this.#plans.has(id)) this.#shown.at(id)?.setAttribute('aria-busy', 'true');
    }
    this.#inSight();
  }

  /** A part of what is in sight; the next frame goes on where nothing else came in between. */
  #inSight(): void {
    const wanted = [...this.#waiting].filter(
      (id) => !this.#plans.has(id) && (id === PANEL || this.#sees(id)),
    );
    const left = this.#draw(BUDGET, wanted);
    if (left > 0) {
      this.#frame = requestAnimationFrame(() => {
        this.#frame = undefined;
        this.#inSight();
      });
    }
  }

  #letGo(): void {
    const now = this.#now();
    const ids = new Set(now.ids);
    this.#plans = new Set(now.ids.filter((id) => now.needsPlan(id)));
    for (const id of this.#shown.ids) if (!ids.has(id)) this.#shown.remove(id);
    this.#waiting.clear();
    for (const id of ids) this.#waiting.add(id);
    this.#tells = true;
    const first = [...ids].filter((id) => this.#sees(id) && !this.#plans.has(id));
    this.#draw(Number.POSITIVE_INFINITY, [PANEL, ...first]);
    for (const id of this.#waiting) this.#shown.at(id)?.setAttribute('aria-busy', 'true');
    this.#later();
  }

  /** A phone keeps the drawing of the cover over what is chosen, wherever the cover stands. */
  #sees(id: string): boolean {
    return ALWAYS.includes(id) || this.#shown.isNear(id);
  }

  #later(): void {
    this.#rest = setTimeout(() => {
      this.#rest = undefined;
      this.#goOn();
    }, 0);
  }

  /** The next of what waits: what is in sight, then what the cutting plan stands in, then the rest. */
  #goOn(): void {
    const rank = (id: string): number =>
      this.#shown.isNear(id) ? 0 : id === 'cutting-plan' || id === 'needs' ? 1 : 2;
    const wanted = [...this.#waiting].sort((a, b) => rank(a) - rank(b));
    if (this.#draw(BUDGET, wanted) > 0) this.#later();
    else this.#ends();
  }

  #ends(): void {
    for (const id of this.#shown.ids) this.#shown.at(id)?.removeAttribute('aria-busy');
    document.documentElement.dataset.drawn = 'true';
    if (!this.#tells) return;
    this.#tells = false;
    this.#settled();
  }

  /**
   * Draws of these what there is time for, at least one.
   * @returns how many are left
   */
  #draw(time: number, ids: readonly string[]): number {
    const now = this.#now();
    const until = performance.now() + time;
    for (const [i, id] of ids.entries()) {
      if (i > 0 && performance.now() > until) return ids.length - i;
      this.#waiting.delete(id);
      if (id === PANEL) this.#followed();
      else this.#shown.put(id, now.make(id)?.html, () => now.ids);
    }
    return 0;
  }
}
