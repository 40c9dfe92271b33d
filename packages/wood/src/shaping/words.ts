import { nearNames } from '../nearest.ts';
import {
  type EdgeForm,
  type EndCut,
  type EndsForm,
  type OutlineForm,
  type Profile,
  SIDES,
  type Side,
  type SideOrWay,
  type TaperFaces,
} from './form.ts';
import { SHAPE_FORMS, type ShapeWordColumn } from './forms.ts';
import { SHAPE_SAYS, ShapeWordFault } from './says.ts';

/** A usual table top between an oval and a rectangle. Common practice, no source. */
const USUAL_EXPONENT = 2.5;
/** Longer than any shape; a cell can hold a novel. */
const LONGEST = 120;
/** As much of what was typed as a sentence quotes. */
const QUOTED = 60;

const WORD_NUMBERS = /^[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)$/;

/** Small letters, single spaces, and spellings that mean the same made one. */
const plain = (text: string): string =>
  text.trim().toLowerCase().replaceAll(/[‐-―]/g, '-').replaceAll(/\s+/g, ' ');

/** Words and numbers; degrees behind a number go with it. */
const tokensOf = (text: string): readonly string[] =>
  plain(text)
    .replaceAll(/(\d)\s*(?:°|degrees?|deg)(?![a-z])/g, '$1 ')
    .replaceAll(/round[ -]?over/g, 'roundover')
    // A comma between digits is a decimal one.
    .split(/(?:(?<!\d),|,(?!\d)|[ ;])+/)
    .filter((token) => token !== '');

class Words {
  readonly #column: ShapeWordColumn;
  readonly #text: string;
  readonly #tokens: readonly string[];
  readonly part: string;
  #at = 0;

  constructor(column: ShapeWordColumn, part: string, text: string) {
    this.#column = column;
    this.part = part;
    this.#text = text.trim().replaceAll(/\s+/g, ' ');
    if (this.#text.length > LONGEST) this.refuse();
    this.#tokens = tokensOf(text);
  }

  get isEnd(): boolean {
    return this.#at >= this.#tokens.length;
  }

  /** Takes the first of the phrases that stands here. */
  take(phrases: readonly string[]): string | undefined {
    for (const phrase of phrases) {
      const words = phrase.split(' ');
      if (words.some((word, index) => this.#tokens[this.#at + index] !== word)) continue;
      this.#at += words.length;
      return phrase;
    }
    return undefined;
  }

  skip(words: readonly string[]): void {
    while (this.take(words) !== undefined) {
      // Each of them is passed over.
    }
  }

  number(): number | undefined {
    const token = this.#tokens[this.#at];
    if (token === undefined || !WORD_NUMBERS.test(token)) return undefined;
    this.#at += 1;
    return Number(token.replace(',', '.'));
  }

  side(): Side | undefined {
    const taken = this.take([...SIDES, 'upper', 'lower']);
    if (taken === 'upper') return 'top';
    return taken === 'lower' ? 'bottom' : (taken as Side | undefined);
  }

  refuse(): never {
    const said = this.#text.length > QUOTED ? `${this.#text.slice(0, QUOTED)}…` : this.#text;
    const forms = SHAPE_FORMS[this.#column].map(({ words }) => words);
    const [near] = nearNames(said, forms, 1);
    const other = near === undefined || plain(near) === plain(said) ? undefined : near;
    throw new ShapeWordFault(SHAPE_SAYS.unread(this.#column, this.part, said, other));
  }
}

/** An outline in words; a radius of rounded corners is another cell. */
export type OutlineWords = Exclude<OutlineForm, { kind: 'rounded' }> | { readonly kind: 'rounded' };

/**
 * Reads the outline of a part.
 * @returns undefined for a box
 * @throws ShapeWordFault
 */
export function readOutline(part: string, text: string): OutlineWords | undefined {
  const words = new Words('shape', part, text);
  const kind = outlineAt(words);
  words.skip(['top', 'disk', 'disc']);
  if (!words.isEnd) words.refuse();
  return kind === 'box' ? undefined : kind;
}

function outlineAt(words: Words): OutlineWords | 'box' {
  words.skip(['a', 'an']);
  if (words.take(['box', 'square', 'rectangle', 'rectangular']) !== undefined) return 'box';
  if (words.take(['rounded corners', 'round corners', 'rounded']) !== undefined)
    return { kind: 'rounded' };
  if (words.take(['rod', 'round rod', 'dowel']) !== undefined) return { kind: 'rod' };
  if (words.take(['round', 'circle', 'circular', 'disk', 'disc']) !== undefined)
    return { kind: 'round' };
  if (words.take(['oval', 'ellipse', 'elliptical']) !== undefined) return { kind: 'oval' };
  if (words.take(['superellipse', 'super ellipse']) === undefined) return words.refuse();
  const exponent = words.number() ?? USUAL_EXPONENT;
  if (exponent >= 1.2 && exponent <= 20) return { kind: 'superellipse', exponent };
  throw new ShapeWordFault(SHAPE_SAYS.exponent(words.part, `${exponent}`));
}

/**
 * Reads which faces of a part are tapered.
 * @throws ShapeWordFault
 */
export function readTaper(part: string, text: string): TaperFaces {
  const words = new Words('taper', part, text);
  const faces = taperAt(words);
  words.skip(['faces', 'face', 'sides', 'side']);
  if (!words.isEnd) words.refuse();
  return faces;
}

function taperAt(words: Words): TaperFaces {
  words.skip(['the', 'on']);
  const way = words.take([
    'two inside',
    '2 inside',
    'inside',
    'two outside',
    '2 outside',
    'outside',
  ]);
  if (way !== undefined) return way.endsWith('inside') ? 'inside' : 'outside';
  if (words.take(['all four', 'four', '4', 'all around', 'all']) !== undefined) return 'four';
  const faces = sidesAt(words);
  return faces.length > 0 ? faces : words.refuse();
}

/** Sides by their names, with "and" between them, each once. */
function sidesAt(words: Words): Side[] {
  const sides: Side[] = [];
  for (;;) {
    words.skip(['and', 'the']);
    const side = words.side();
    if (side === undefined) return sides;
    if (!sides.includes(side)) sides.push(side);
  }
}

const MITRED = ['mitered', 'mitred', 'miter', 'mitre'];
const BEVELED = ['beveled', 'bevelled', 'bevel'];
const STEEPEST = 80;

/**
 * Reads how the ends of a part are cut.
 * @throws ShapeWordFault
 */
export function readEnds(part: string, text: string): EndsForm {
  const words = new Words('ends', part, text);
  let lie: EndsForm['lie'];
  const cuts: EndCut[] = [];
  while (!words.isEnd) {
    words.skip(['and', 'ends', 'both', 'cut']);
    if (words.isEnd) break;
    const said = words.take(['level', 'square']);
    if (said === undefined) cuts.push(endCutAt(words));
    else if (lie !== undefined && lie !== said) throw new ShapeWordFault(SHAPE_SAYS.lieTwice(part));
    else lie = said as 'level' | 'square';
  }
  for (const [index, cut] of cuts.entries()) {
    const meets = cuts
      .slice(0, index)
      .some(({ kind, at }) => kind === cut.kind && isOneEnd(at, cut.at));
    if (meets) throw new ShapeWordFault(SHAPE_SAYS.twice(part, said(cut.kind)));
  }
  if (lie === undefined && cuts.length === 0) words.refuse();
  return { cuts, ...(lie === undefined ? {} : { lie }) };
}

const isOneEnd = (one: Side | undefined, other: Side | undefined): boolean =>
  one === undefined || other === undefined || one === other;

const said = (kind: EndCut['kind']): string => (kind === 'mitre' ? 'mitered' : 'beveled');

function endCutAt(words: Words): EndCut {
  const mitred = words.take(MITRED);
  const taken = mitred ?? words.take(BEVELED);
  if (taken === undefined) return words.refuse();
  words.skip(['at', 'by', 'to']);
  const angle = words.number();
  if (angle === undefined) throw new ShapeWordFault(SHAPE_SAYS.noAngle(words.part, taken));
  if (!(angle > 0 && angle <= STEEPEST))
    throw new ShapeWordFault(SHAPE_SAYS.angle(words.part, `${angle}`));
  return { kind: mitred === undefined ? 'bevel' : 'mitre', angle, ...endsAt(words) };
}

/** At which end, and which side is the longer one, in either order. */
function endsAt(words: Words): Pick<EndCut, 'at' | 'longer'> {
  let at: Side | undefined;
  let longer: SideOrWay | undefined;
  for (;;) {
    words.skip(['at', 'the', 'on', 'end', 'ends', 'both']);
    const side: SideOrWay | undefined =
      words.side() ?? (words.take(['inside', 'outside']) as 'inside' | 'outside' | undefined);
    if (side === undefined) break;
    words.skip(['side', 'edge', 'face']);
    if (words.take(['longer', 'long']) !== undefined) longer = side;
    else if (side !== 'inside' && side !== 'outside' && at === undefined) at = side;
    else words.refuse();
  }
  return { ...(at === undefined ? {} : { at }), ...(longer === undefined ? {} : { longer }) };
}

const PROFILES: readonly (readonly [readonly string[], Profile])[] = [
  [['roundover', 'rounded over', 'rounded', 'round'], 'roundover'],
  [['chamfer', 'chamfered'], 'chamfer'],
  [['cove', 'coved'], 'cove'],
];

/**
 * Reads how the edges of a part are shaped; how large is another cell.
 * @throws ShapeWordFault
 */
export function readEdge(part: string, text: string): Omit<EdgeForm, 'size'> {
  const words = new Words('edge', part, text);
  const found = PROFILES.find(([phrases]) => words.take(phrases) !== undefined);
  if (found === undefined) return words.refuse();
  words.skip(['all', 'around', 'edges', 'edge', 'on', 'at']);
  const at = sidesAt(words);
  words.skip(['edge', 'edges', 'side', 'sides']);
  if (!words.isEnd) words.refuse();
  return { profile: found[1], at };
}

/** Whether words under a head say a shape that can be read. */
export function isShapeWords(column: ShapeWordColumn, text: string): boolean {
  const read = { shape: readOutline, taper: readTaper, ends: readEnds, edge: readEdge }[column];
  try {
    read('', text);
    return true;
  } catch (error) {
    if (error instanceof ShapeWordFault) return false;
    throw error;
  }
}
