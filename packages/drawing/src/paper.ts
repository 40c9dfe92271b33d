/**
 * Sizes of what is written on a drawing, in paper units: a drawing is 420 of them wide unless told
 * otherwise, so that in a panel about that many pixels wide one of them is one pixel. Gap, overrun
 * and arrowheads keep the proportions of ASME Y14.2 and ISO 129-1 (see comments); the distances are
 * brought closer together for a small panel, which is common practice, no source.
 */
export const PAPER = {
  /** Height of dimension texts. */
  text: 11,
  /** Height of the caption's text. */
  caption: 11,
  /** Mean width of a character, in text heights; generous, so that estimates do not overlap. */
  glyph: 0.56,
  /** From outline to extension line, and its overrun past the dimension line: 1 : 2 as in ASME. */
  gap: 2,
  overrun: 4,
  /** From the outline to the first dimension line, and from one to the next. */
  first: 20,
  next: 19,
  /** Arrowheads three times as long as wide (ASME Y14.2): an angle of 19°, ISO 129-1 asks for 15° or more. */
  arrow: 7.5,
  arrowHalf: 1.25,
  /** From a dimension line to the text above it. */
  lift: 2.5,
  /** Tail of an arrow that stands outside its extension lines. */
  tail: 12,
  /** Around everything. */
  edge: 8,
  /** Row of the caption and the scale bar. */
  foot: 24,
} as const;

/** Estimated width of a text in paper units. */
export const textWidth = (text: string, height: number): number =>
  [...text].length * PAPER.glyph * height;
