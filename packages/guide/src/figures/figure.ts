import type { Eye, ShopPlan } from '@kerfbook/drawing';

/** The picture of a step. */
export interface Figure {
  /** One SVG with a `viewBox`, a title, and no inline styles; its look is in `FIGURE_STYLES`. */
  readonly svg: string;
  /** What it shows, for whoever does not see it. */
  readonly says: string;
  /** Which language that is in, where it is not the plan's. */
  readonly saysLang?: string;
  /** What stands beneath it: what it takes for granted, or how it is looked at. */
  readonly caption?: string;
  /** Which language that is in, where it is not the plan's. */
  readonly captionLang?: string;
  /** Labels of the step's sizes that its drawings bear, so that nobody need tell them again. */
  readonly tells?: readonly string[];
}

/** How figures are drawn. */
export interface FigureOptions {
  /** True: black lines and tints, whatever the page's scheme is; else they follow the page. */
  readonly print?: boolean;
  /** Where everything is looked at from; the eye that shows most parts where left out, which takes a while to find. */
  readonly eye?: Eye;
  /** Where the sizes of a step stand: beneath its drawings where left out, else beside the figure, in the page. */
  readonly sizes?: 'beside';
  /**
   * The plan for buying and cutting, or who gives it once a figure needs it; without either a quick one is made then.
   */
  readonly shop?: ShopPlan | (() => ShopPlan | undefined);
}
