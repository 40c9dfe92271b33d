import {
  buildScene,
  chooseEye,
  type Eye,
  readParts,
  type ShopPlan,
  shopPlan,
} from '@kerfbook/drawing';
import type { ReaderBook } from '@kerfbook/workbook/reader-book';
import type { Figure } from '../figures/figure.ts';
import { figureOf } from '../figures/figures.ts';
import { type FiguresOf, GUIDE_PARTS, type GuidePart } from '../page/options.ts';
import { guideSections } from '../page/sections.ts';
import { stepId } from '../page/steps.ts';
import type { SectionsShown } from './sections-shown.ts';

/** Parts that the cutting plan stands in: they wait until nothing is pulled any more. */
const WITH_PLAN: ReadonlySet<GuidePart> = new Set<GuidePart>(['needs', 'cutting-plan']);
const WITHOUT_PLAN = new Set<GuidePart>(GUIDE_PARTS.filter((part) => !WITH_PLAN.has(part)));
/** What follows in the very frame, wherever one looks. */
const AT_ONCE: ReadonlySet<GuidePart> = new Set<GuidePart>(['cover', 'checks', 'cut-list']);

/** How the page is drawn now. */
export interface Drawn {
  readonly second: boolean;
  readonly day?: string;
}

/** Draws the guide anew where it is otherwise than before: what is looked at first, the rest after it. */
export class Redraw {
  readonly #book: ReaderBook;
  readonly #shown: SectionsShown;
  readonly #how: () => Drawn;
  readonly #followed: () => void;
  readonly #settled: () => void;
  #frame: number | undefined;
  #rest: ReturnType<typeof setTimeout> | undefined;
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

  /** An input has another value; where it is being pulled, the cutting plan waits. */
  changed(pulling: boolean): void {
    if (this.#rest !== undefined) clearTimeout(this.#rest);
    this.#rest = undefined;
    for (const id of WITH_PLAN) this.#shown.at(id)?.setAttribute('aria-busy', 'true');
    if (pulling) this.#frame ??= requestAnimationFrame(() => this.#quick());
    else {
      if (this.#frame !== undefined) cancelAnimationFrame(this.#frame);
      this.#frame = undefined;
      this.#whole();
    }
  }

  /** What is looked at while a number is pulled. */
  #quick(): void {
    this.#frame = undefined;
    this.#followed();
    const sees = (id: string): boolean => inSight(this.#shown.at(id));
    const steps = this.#stepsInSight();
    const parts = new Set<GuidePart>(
      [...AT_ONCE].filter((part) => part !== 'cut-list' || sees(part)),
    );
    if (steps) parts.add('steps');
    const only = (id: string): boolean =>
      !id.startsWith('step-') || this.#shown.at(id) === undefined || sees(id);
    this.#put(parts, 'later', only);
  }

  #stepsInSight(): boolean {
    return [...document.querySelectorAll('.guide-step')].some(inSight);
  }

  /** All but the cutting plan at once, and that as soon as it has been seen. */
  #whole(): void {
    this.#followed();
    this.#put(WITHOUT_PLAN);
    this.#rest = setTimeout(() => {
      this.#rest = undefined;
      this.#put(WITH_PLAN, shopPlan(this.#book, 'cell'));
      for (const id of WITH_PLAN) this.#shown.at(id)?.removeAttribute('aria-busy');
      this.#settled();
    }, 0);
  }

  #put(
    parts: ReadonlySet<GuidePart>,
    plan: ShopPlan | 'later' = 'later',
    only?: (id: string) => boolean,
  ): void {
    const figures = only === undefined ? undefined : figuresOnly(only);
    const { second, day } = this.#how();
    this.#eye ??= chooseEye(buildScene(readParts(this.#book).parts));
    const sections = guideSections(this.#book, {
      ticks: true,
      second,
      parts: [...parts],
      plan,
      eye: this.#eye,
      ...(figures === undefined ? {} : { figures }),
      ...(day === undefined ? {} : { day }),
    });
    this.#shown.show(sections, parts, only);
  }
}

/** The figures of some steps alone. */
const figuresOnly =
  (only: (id: string) => boolean): FiguresOf =>
  (source, plan, options) => {
    const found = new Map<string, Figure>();
    for (const step of plan.steps) {
      const figure = only(stepId(step)) ? figureOf(source, plan, step, options) : undefined;
      if (figure !== undefined) found.set(step.key, figure);
    }
    return found;
  };

/** Whether any of an element is within the window, or nearly. */
function inSight(one: Element | undefined): boolean {
  if (one === undefined) return false;
  const { top, bottom } = one.getBoundingClientRect();
  return bottom > -200 && top < innerHeight + 200;
}
