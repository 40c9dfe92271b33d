import { nearNames } from '@kerfbook/wood';

/** How two parts are joined, or what is cut into one. */
export type JointKind =
  | 'mortise and tenon'
  | 'through mortise and tenon'
  | 'haunched mortise and tenon'
  | 'loose tenon'
  | 'tongue and groove'
  | 'groove'
  | 'stopped groove'
  | 'dado'
  | 'stopped dado'
  | 'rabbet'
  | 'half lap'
  | 'finger joint'
  | 'dovetails'
  | 'pocket holes'
  | 'screws'
  | 'dowels'
  | 'hole'
  | 'slot';

/** A joint as makers choose it. */
export interface JointForm {
  /** How it is typed. */
  readonly words: JointKind;
  /** What it makes of the parts. */
  readonly means: string;
  /** Parts that it takes. */
  readonly takes: 'two' | 'one' | 'one or two';
}

const form = (words: JointKind, means: string, takes: JointForm['takes'] = 'two'): JointForm => ({
  words,
  means,
  takes,
});

/** Every joint, the commonest first. */
export const JOINT_FORMS: readonly JointForm[] = [
  form(
    'mortise and tenon',
    'The end of the part is a tenon, as long as it reaches in; the mortise is blind.',
  ),
  form('through mortise and tenon', 'The same, right through the other part.'),
  form(
    'haunched mortise and tenon',
    'Blind, with a haunch towards the nearer end, as long as the tenon is thick.',
  ),
  form('loose tenon', 'A mortise in both, and a tenon of its own in between; the parts touch.'),
  form('dado', 'The part sits in a dado across the other one.', 'one or two'),
  form('groove', 'The part sits in a groove along the other one.', 'one or two'),
  form('rabbet', 'The part sits in a rabbet along an edge of the other one.', 'one or two'),
  form('stopped dado', 'A dado that ends where the part ends.'),
  form('stopped groove', 'A groove that ends where the part ends.'),
  form('tongue and groove', 'A tongue along the edge of the part, a third as thick, in a groove.'),
  form('half lap', 'Where the parts cross, half is cut from each.'),
  form('finger joint', 'Fingers of both across a corner, as wide as the part is thick.'),
  form('dovetails', 'Tails on the part, pins on the other one.'),
  form('pocket holes', 'Slanted holes in the part for screws into the other one.'),
  form('screws', 'Through the thinner one into the other; "screws No. 10" for another size.'),
  form('dowels', 'Holes for dowels in both; the parts touch.'),
  form('hole', 'Holes in one part, along its length.', 'one'),
  form('slot', 'Slots in one part for screws that let it move.', 'one'),
];

/** Other words of the trade, and of other countries, for the same. */
const ALSO: ReadonlyMap<string, JointKind> = new Map([
  ['tenon', 'mortise and tenon'],
  ['mortice and tenon', 'mortise and tenon'],
  ['blind mortise and tenon', 'mortise and tenon'],
  ['stub tenon', 'mortise and tenon'],
  ['through tenon', 'through mortise and tenon'],
  ['haunched tenon', 'haunched mortise and tenon'],
  ['floating tenon', 'loose tenon'],
  ['slip tenon', 'loose tenon'],
  ['loose mortise and tenon', 'loose tenon'],
  ['housing', 'dado'],
  ['stopped housing', 'stopped dado'],
  ['rebate', 'rabbet'],
  ['halving', 'half lap'],
  ['cross lap', 'half lap'],
  ['lap', 'half lap'],
  ['box', 'finger joint'],
  ['finger', 'finger joint'],
  ['dovetail', 'dovetails'],
  ['pocket hole', 'pocket holes'],
  ['pocket screw', 'pocket holes'],
  ['pocket', 'pocket holes'],
  ['screw', 'screws'],
  ['dowel', 'dowels'],
  ['drill hole', 'hole'],
]);

/** What the joint cell of a row says. */
export interface JointWords {
  /** Which joint it is. */
  readonly kind: JointKind;
  /** The screw it names, such as `No. 8`; left out where it names none. */
  readonly screw?: string;
}

const plain = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replaceAll('&', ' and ')
    .replaceAll(/[\s-]+/g, ' ')
    .replaceAll('mortice', 'mortise')
    .replace(/ joints?$/, '');

const KINDS: ReadonlyMap<string, JointKind> = new Map(
  JOINT_FORMS.map(({ words }) => [plain(words), words]),
);

const SCREWS = /^(?:wood )?screws?,? +((?:no\.?|nr\.?|#) *\d+|\d+(?:[.,]\d+)? *mm)$/i;

/** Reads the words of a joint; undefined where they name none. */
export function readJointWords(text: string): JointWords | undefined {
  const screw = SCREWS.exec(text.trim())?.[1];
  if (screw !== undefined) return { kind: 'screws', screw };
  const words = plain(text);
  const single = words.replace(/s$/, '');
  const kind = KINDS.get(words) ?? ALSO.get(words) ?? KINDS.get(single) ?? ALSO.get(single);
  return kind === undefined ? undefined : { kind };
}

/** The joint that words may have meant. */
export const nearestJoint = (text: string): string | undefined =>
  nearNames(text, [...JOINT_FORMS.map(({ words }) => words), ...ALSO.keys()], 1)[0];

/** How many parts a joint takes. */
export const partsTaken = (kind: JointKind): JointForm['takes'] =>
  JOINT_FORMS.find(({ words }) => words === kind)?.takes ?? 'two';
