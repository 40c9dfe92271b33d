/** Along the piece of furniture, across it, up: places in a corner. */
export type AxisPlace = 0 | 1 | 2;

/** The words that name an axis; the first of each is the one that sentences use. */
export const AXIS_WORDS: readonly (readonly [AxisPlace, readonly string[]])[] = [
  [0, ['along', 'along the length', 'lengthwise']],
  [1, ['across', 'across the width', 'crosswise']],
  [2, ['up', 'upward', 'upwards']],
];

/** How a sentence says an axis. */
export const axisWord = (axis: AxisPlace): string => AXIS_WORDS[axis]?.[1][0] ?? '';

/** One way to place a part, for makers who choose or look up. */
export interface PlaceForm {
  /** How it is typed, with the names of a table's parts as an example. */
  readonly words: string;
  /** What it does, and what x, y and z then count. */
  readonly means: string;
}

/** Every way to place a part in words, the commonest first. */
export const PLACE_FORMS: readonly PlaceForm[] = [
  {
    words: 'four corners of Top',
    means:
      'One at each corner, standing upright. Columns x and y: how far in, along and across. Count 4.',
  },
  { words: 'both ends of Top', means: 'One at each end, mirrored. Column x: how far in. Count 2.' },
  {
    words: 'front and back of Top',
    means: 'One along each long side, mirrored. Column y: how far in. Count 2.',
  },
  {
    words: 'between Leg along',
    means:
      'In the middle of the gap between the outermost pieces of Leg, on edge; along or across says which gap.',
  },
  { words: 'between Leg and Post along', means: 'The same between two parts.' },
  {
    words: 'equal spaces along Top',
    means: 'As many as the count says, with spaces alike between them and at both ends.',
  },
  {
    words: 'equal centers along Top',
    means: 'The same, from middle to middle; from an end to the first middle it is as far.',
  },
  {
    words: 'spread along Top',
    means: 'The first and the last at the ends, the others at equal spaces between them.',
  },
  { words: 'centered on Top', means: 'In its middle, along and across.' },
  {
    words: 'left end of Top',
    means: 'At its left end. Column x: how far in. "right end" likewise.',
  },
  { words: 'front of Top', means: 'At its front. Column y: how far in. "back" likewise.' },
  {
    words: 'under Top',
    means:
      'Its top face against the underside of Top, in its middle along and across. Column z: how far down.',
  },
  {
    words: 'on Leg',
    means:
      'Its underside on the top end of Leg, in the middle along and across. Column z: how far up.',
  },
  {
    words: 'upright',
    means: 'How it is turned: "flat", "on edge" or "upright", with "along" or "across" behind it.',
  },
];
