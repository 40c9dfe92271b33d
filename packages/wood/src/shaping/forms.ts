import type { ShapeColumn } from './form.ts';

/** One way to say a shape, for makers who choose or look up. */
export interface ShapeForm {
  /** How it is typed. */
  readonly words: string;
  /** What it does, and what else it takes. */
  readonly means: string;
}

/** Every way to shape a part in words, by the head it stands under, the commonest first. */
export const SHAPE_FORMS = {
  shape: [
    { words: 'round', means: 'A round top or disk, as long as it is wide.' },
    { words: 'oval', means: 'An oval, as long and wide as the row says.' },
    {
      words: 'superellipse',
      means:
        'Between an oval and a rectangle. A number behind it says how full: 2 an oval, 2.5 usual, 4 nearly square.',
    },
    { words: 'rounded corners', means: 'Round corners; their radius stands under corner.' },
    { words: 'rod', means: 'Round along its length, as a dowel or a turned leg.' },
    { words: 'box', means: 'Square all around, as without a word.' },
  ],
  taper: [
    {
      words: 'two inside faces',
      means:
        'The faces that look to the middle of the furniture, towards the foot. Its size there stands under taper to.',
    },
    { words: 'four faces', means: 'All around, towards the foot or the right end.' },
    { words: 'outside faces', means: 'The faces that look away from the middle.' },
    {
      words: 'front and back',
      means: 'Faces by their names: front, back, left, right, top, bottom.',
    },
  ],
  ends: [
    {
      words: 'level',
      means: 'Of a part that leans: flat on the floor and under the top. It is so without a word.',
    },
    { words: 'square', means: 'Square to the part, also where it leans.' },
    {
      words: 'mitered 45',
      means: 'Both ends at 45° across the width, the outer or lower side longer.',
    },
    {
      words: 'beveled 10',
      means: 'Both ends with the blade tilted by 10°, the outer or lower side longer.',
    },
    { words: 'mitered 45 left', means: 'One end only: left, right, front, back, top or bottom.' },
    { words: 'mitered 10 top longer', means: 'Which side stays as long as it is.' },
  ],
  edge: [
    { words: 'round-over', means: 'All around; the radius stands under edge size.' },
    { words: 'chamfer', means: 'All around, at 45°; how much it takes stands under edge size.' },
    { words: 'cove', means: 'A hollow quarter round; the radius stands under edge size.' },
    {
      words: 'round-over top',
      means: 'Around one side only: top, bottom, front, back, left or right.',
    },
  ],
} as const satisfies Partial<Record<ShapeColumn, readonly ShapeForm[]>>;

/** A head whose cells are words. */
export type ShapeWordColumn = keyof typeof SHAPE_FORMS;
