/** What the figure of a step may show, as its table says it. */
export const FIGURES = [
  'assembly',
  'glue-up',
  'groove',
  'pocket holes',
  'joint',
  'fasteners',
  'seasons',
  'cutting',
  'none',
] as const;

/** A kind of figure. */
export type FigureKind = (typeof FIGURES)[number];

/** What a step says of its figure: `joint: Long apron into Leg` is one of a joint. */
export function figureIn(
  words: string | undefined,
): { readonly kind: FigureKind; readonly of?: string } | undefined {
  if (words === undefined) return { kind: 'assembly' };
  const [word = '', ...rest] = words.split(':');
  const kind = FIGURES.find((one) => one === word.trim().toLowerCase().replaceAll(/\s+/g, ' '));
  if (kind === undefined) return undefined;
  const of = rest.join(':').trim();
  return of === '' ? { kind } : { kind, of };
}
