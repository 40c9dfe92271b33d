import type { Eye, ShopPlan } from '@kerfbook/drawing';
import type { Figure, FigureOptions } from '../figures/figure.ts';
import type { Plan } from '../plan.ts';
import type { GuideSource } from '../source.ts';

/** A part of a guide as HTML. */
export interface GuideSection {
  /** What it is known by: one of {@link GUIDE_PARTS}, of a step `step-` and its key. */
  readonly id: string;
  /** A `section` element; empty parts are left out altogether. */
  readonly html: string;
}

/** What a guide consists of, in its order; `steps` are a section each. */
export const GUIDE_PARTS = [
  'cover',
  'checks',
  'needs',
  'cautions',
  'cut-list',
  'cutting-plan',
  'steps',
  'finish',
  'care',
  'lost',
  'credits',
] as const;

/** A part of a guide. */
export type GuidePart = (typeof GUIDE_PARTS)[number];

/** Draws the figures of a plan, by the keys of their steps; a step without one is left out. */
export type FiguresOf = (
  source: GuideSource,
  plan: Plan,
  options: FigureOptions,
) => ReadonlyMap<string, Figure>;

/** How a guide is made. */
export interface GuideOptions {
  /** True: for paper alone, woods as tints under black lines. Else colours go by the page's scheme. */
  readonly print?: boolean;
  /** True: in the workbook's second language, as far as it has words for it. */
  readonly second?: boolean;
  /** True: what is done or cut can be ticked off on the screen: `input[data-tick]`. Else there are boxes on paper. */
  readonly ticks?: boolean;
  /** Who draws the figures; those of this package where left out. */
  readonly figures?: FiguresOf;
  /** The buying plan; worked out as far as a cell may wait where left out. `later`: it is being worked out elsewhere. */
  readonly plan?: ShopPlan | 'later';
  /** Where the whole is looked at from; the eye that shows most parts where left out. */
  readonly eye?: Eye;
  /** The day that stands on the cover, as it is to be read. */
  readonly day?: string;
  /** Ids of checks that readers do not get. */
  readonly without?: ReadonlySet<string>;
  /** Which parts are wanted; all where left out. */
  readonly parts?: readonly GuidePart[];
}
