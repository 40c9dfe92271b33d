/** What the figure of a step may show, as its table says it. */
export const FIGURES = [
  'assembly',
  'turned over',
  'glue-up',
  'groove',
  'pocket holes',
  'joint',
  'fasteners',
  'seasons',
  'cutting',
  'parts',
  'stack',
  'milling',
  'flattening',
  'squaring',
  'outline',
  'edge',
  'sanding',
  'sizes',
  'tenons',
  'taper',
  'slots',
  'buttons',
  'dry fit',
  'panel gap',
  'coats',
  'boards',
  'marking',
  'screws',
  'opening',
  'gaps',
  'hinges',
  'banding',
  'layers',
  'rod',
  'bars',
  'none',
] as const;

/** A kind of figure. */
export type FigureKind = (typeof FIGURES)[number];

/** How a groove may be cut, as the figure says it: `groove: Long apron, routed`. */
export const GROOVE_CUTS = ['sawn', 'routed'] as const;

/** A way to cut a groove. */
export type GrooveCut = (typeof GROOVE_CUTS)[number];

/** What the figure of a step shows, and of what. */
export interface FigureSaid {
  /** What its first word says. */
  readonly kind: FigureKind;
  /** What stands behind its word, such as the names of parts. */
  readonly of?: string;
  /** Of a groove: how it is cut, where that is said. */
  readonly cut?: GrooveCut;
}

/** What a step says of its figure: `joint: Long apron into Leg` is one of a joint. */
export function figureIn(words: string | undefined): FigureSaid | undefined {
  if (words === undefined) return { kind: 'assembly' };
  const [word = '', ...rest] = words.split(':');
  const kind = FIGURES.find((one) => one === word.trim().toLowerCase().replaceAll(/\s+/g, ' '));
  if (kind === undefined) return undefined;
  const of = rest.join(':').trim();
  if (kind === 'groove') return { kind, ...grooveOf(of) };
  return of === '' ? { kind } : { kind, of };
}

/** The way to cut it is a word by itself among the names of parts. */
function grooveOf(of: string): Omit<FigureSaid, 'kind'> {
  const words = of
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
  const isCut = (word: string): word is GrooveCut =>
    GROOVE_CUTS.some((cut) => cut === word.toLowerCase());
  const cut = GROOVE_CUTS.find((one) => words.some((word) => word.toLowerCase() === one));
  const names = words.filter((word) => !isCut(word)).join(', ');
  return { ...(names === '' ? {} : { of: names }), ...(cut === undefined ? {} : { cut }) };
}
