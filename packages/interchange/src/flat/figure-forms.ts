import type { Node } from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';
import type { PriceSource } from './price-forms.ts';
import { placedForm } from './standard-forms.ts';
import type { TableSource } from './table-forms.ts';

/**
 * Functions of ours that rest on a figure of a published table, found by a word: the wood, the way it is sawn, the
 * gauge of a screw. Written out, the figures of all words that the cell offers stand in the formula, and the word is
 * looked for among them; a word that is not offered is not found there.
 */
interface FigureForm {
  /** Needed arguments and all that there may be. */
  readonly needs: number;
  readonly most: number;
  /** Which of them are words, counted from 0, and what they are where they are left out. */
  readonly words: readonly { readonly at: number; readonly or?: string }[];
  /** What the figure of words is, as a formula of ours. */
  asks(words: readonly string[]): string;
  /** What other arguments are where they are left out, in inches and in millimeters; by places from 0. */
  readonly or?: Readonly<Record<number, { readonly us: number; readonly metric: number }>>;
  /** The whole of arguments by letters, with the figure as `k`. */
  readonly us: string;
  readonly metric?: string;
  /** The word may also be a number, which is the figure itself. */
  readonly orNumber?: true;
}

const text = (word: string): string => `"${word.replaceAll('"', '""')}"`;

/** Wood Handbook (FPL-GTR-190) chapter 4, as `gravity.ts` of the trade's arithmetic has it, with G at 12 % as `k`. */
const weight = (water: string): string => `b*${water}*(1+c/100)/(1/k+0.159-0.265*MAX(0,30-c)/30)`;

const FORMS: Readonly<Record<string, FigureForm>> = {
  MOVEMENT: {
    needs: 4,
    most: 5,
    words: [{ at: 1 }, { at: 4, or: 'flat' }],
    asks: ([species = '', cut = '']) => `=MOVEMENT(1,${text(species)},0,1,${text(cut)})`,
    us: 'a*(d-c)*k',
  },
  MOVEMENT_SWING: {
    needs: 4,
    most: 5,
    words: [{ at: 1 }, { at: 4, or: 'flat' }],
    asks: ([species = '', cut = '']) => `=MOVEMENT(1,${text(species)},0,1,${text(cut)})`,
    us: 'ABS(a*(d-c)*k)',
  },
  QUARTERS_ROUGH: {
    needs: 1,
    most: 1,
    words: [{ at: 0 }],
    asks: ([quarters = '']) => `=QUARTERS_ROUGH(${text(quarters)})`,
    us: 'k',
  },
  QUARTERS_PLANED: {
    needs: 1,
    most: 1,
    words: [{ at: 0 }],
    asks: ([quarters = '']) => `=QUARTERS_PLANED(${text(quarters)})`,
    us: 'k',
  },
  SCREW_DIAMETER: {
    needs: 1,
    most: 1,
    words: [{ at: 0 }],
    asks: ([gauge = '']) => `=SCREW_DIAMETER(${text(gauge)})`,
    us: 'k',
  },
  STIFFNESS: {
    needs: 1,
    most: 1,
    words: [{ at: 0 }],
    asks: ([word = '']) => `=STIFFNESS(${text(word)})`,
    us: 'k',
  },
  BENDING_STRENGTH: {
    needs: 1,
    most: 1,
    words: [{ at: 0 }],
    asks: ([word = '']) => `=BENDING_STRENGTH(${text(word)})`,
    us: 'k',
  },
  SAG_POINT: {
    needs: 5,
    most: 5,
    words: [{ at: 4 }],
    asks: ([species = '']) => `=STIFFNESS(${text(species)})`,
    us: 'b*a^3/48/(k*c*d^3/12)',
    orNumber: true,
  },
  SAG_UNIFORM: {
    needs: 5,
    most: 5,
    words: [{ at: 4 }],
    asks: ([species = '']) => `=STIFFNESS(${text(species)})`,
    us: '5/384*b*a^4/(k*c*d^3/12)',
    orNumber: true,
  },
  SAG_OVERHANG: {
    needs: 5,
    most: 7,
    words: [{ at: 4 }],
    asks: ([species = '']) => `=STIFFNESS(${text(species)})`,
    or: { 5: { us: 0, metric: 0 }, 6: { us: 0, metric: 0 } },
    us: '(b*a^2*(f+a)/3+g*a^3*(4*f+3*a)/24)/(k*c*d^3/12)',
    orNumber: true,
  },
  SPAN_FOR_SAG: {
    needs: 4,
    most: 5,
    words: [{ at: 3 }],
    asks: ([species = '']) => `=STIFFNESS(${text(species)})`,
    or: { 4: { us: 1 / 360, metric: 1 / 360 } },
    us: '(384*(k*b*c^3/12)*e/(5*a))^(1/3)',
    orNumber: true,
  },
  SAG_LASTING: {
    needs: 1,
    most: 2,
    words: [{ at: 1, or: 'dry wood' }],
    asks: ([material = '']) => `=SAG_LASTING(1,${text(material)})`,
    us: 'a*k',
    orNumber: true,
  },
  BREADBOARD_SLOT: {
    needs: 5,
    most: 7,
    words: [{ at: 2 }, { at: 6, or: 'flat' }],
    asks: ([species = '', cut = '']) => `=MOVEMENT(1,${text(species)},0,1,${text(cut)})`,
    or: { 5: { us: 50, metric: 50 } },
    us: 'b+a*ABS(e-d)*k*(1+f/100)',
  },
  FRAME_PANEL_GAP: {
    needs: 6,
    most: 7,
    words: [{ at: 3 }, { at: 6, or: 'flat' }],
    asks: ([species = '', cut = '']) => `=MOVEMENT(1,${text(species)},0,1,${text(cut)})`,
    us: 'MIN(c,MAX(0,c-(a*(1+(f-e)*k)-b)/2))',
  },
  OUTDOOR_TEMPERATURE: {
    needs: 2,
    most: 2,
    words: [{ at: 0 }, { at: 1 }],
    asks: ([place = '', month = '']) => `=OUTDOOR_TEMPERATURE(${text(place)},${text(month)})`,
    us: 'k',
  },
  OUTDOOR_HUMIDITY: {
    needs: 2,
    most: 2,
    words: [{ at: 0 }, { at: 1 }],
    asks: ([place = '', month = '']) => `=OUTDOOR_HUMIDITY(${text(place)},${text(month)})`,
    us: 'k',
  },
  SHEET_WEIGHT: {
    needs: 3,
    most: 3,
    words: [{ at: 0 }],
    asks: ([sheet = '']) => `=SHEET_WEIGHT(${text(sheet)},100,0.5)/50`,
    us: 'b*c*k',
  },
  FRAME_PANEL_WIDTH: {
    needs: 5,
    most: 7,
    words: [{ at: 2 }, { at: 6, or: 'flat' }],
    asks: ([species = '', cut = '']) => `=MOVEMENT(1,${text(species)},0,1,${text(cut)})`,
    or: { 5: { us: 1 / 16, metric: 25.4 / 16 } },
    us: '(a+2*(b-f))/(1+MAX(0,(e-d)*k))',
  },
  DRAWER_HEIGHT: {
    needs: 4,
    most: 6,
    words: [{ at: 1 }, { at: 5, or: 'flat' }],
    asks: ([species = '', cut = '']) => `=MOVEMENT(1,${text(species)},0,1,${text(cut)})`,
    or: { 4: { us: 1 / 32, metric: 25.4 / 32 } },
    us: '(a-e)/(1+MAX(0,(d-c)*k))',
  },
  DOVETAIL_ANGLE: {
    needs: 1,
    most: 1,
    words: [{ at: 0 }],
    asks: ([species = '']) => `=DOVETAIL_ANGLE(${text(species)})`,
    us: 'k',
  },
  WOOD_WEIGHT: {
    needs: 3,
    most: 3,
    words: [{ at: 0 }],
    asks: ([species = '']) => `=SPECIFIC_GRAVITY(${text(species)})`,
    us: weight('62.4/1728'),
    // 62.4 lb/ft³ in kg/mm³: 0.45359237 kg and 304.8 mm (NIST SP 811, appendix B).
    metric: weight('62.4*0.45359237/304.8^3'),
  },
};

/** What is asked to write a function out that rests on what stands in cells. */
export interface FigureSource extends TableSource, PriceSource {
  /** Whether an argument is a number now. */
  isNumber(argument: Node): boolean;
  /** The number that a formula of ours comes to; undefined where it is none. */
  number(formula: string): number | undefined;
}

/** Figures in one formula at the most: it has to be read by people too, and by programs that read 8,192 letters. */
const MOST_FIGURES = 120;

/** A call of ours with its figures written out; undefined where there is no such form. */
export function figureForm(
  name: string,
  args: readonly Node[],
  system: UnitSystem,
  source: FigureSource,
): Node | undefined {
  const form = Object.hasOwn(FORMS, name) ? FORMS[name] : undefined;
  if (form === undefined || args.length < form.needs || args.length > form.most) return undefined;
  const given: (Node | undefined)[] = args.map((arg) => (arg.kind === 'nothing' ? undefined : arg));
  const keys: { readonly node: Node; readonly words: readonly string[] }[] = [];
  const [only] = form.words;
  const own = form.orNumber === true && only !== undefined ? given[only.at] : undefined;
  const asNumber = own !== undefined && source.isNumber(own) ? own : undefined;
  for (const { at, or } of asNumber === undefined ? form.words : []) {
    const node = given[at] ?? (or === undefined ? undefined : { kind: 'text' as const, value: or });
    const words = node === undefined ? undefined : source.wordsOf(node);
    if (node === undefined || words === undefined || words.length === 0) return undefined;
    keys.push({ node, words });
  }
  const figure = asNumber === undefined ? lookedUp(form, keys, source) : placedNumber(asNumber);
  if (figure === undefined) return undefined;
  const whole = system === 'metric' ? (form.metric ?? form.us) : form.us;
  for (const [at, usual] of Object.entries(form.or ?? {})) {
    given[Number(at)] ??= { kind: 'number', value: usual[system] };
  }
  return placedForm(whole, given, figure);
}

/** A number in the place of a figure, within brackets where it is worked out. */
const placedNumber = (node: Node): Node =>
  node.kind === 'joined' || node.kind === 'sign' ? { kind: 'bracket', of: node } : node;

/** The figures of all words, and the one that is meant. */
function lookedUp(
  form: FigureForm,
  keys: readonly { readonly node: Node; readonly words: readonly string[] }[],
  source: FigureSource,
): Node | undefined {
  const [first, second] = keys;
  if (first === undefined) return undefined;
  const across = second?.words ?? [''];
  if (first.words.length * across.length > MOST_FIGURES) return undefined;
  const rows: { readonly word: string; readonly figures: readonly number[] }[] = [];
  for (const word of first.words) {
    const figures = across.map((other) => source.number(form.asks([word, other])));
    if (figures.every((one): one is number => one !== undefined)) rows.push({ word, figures });
  }
  if (rows.length === 0) return undefined;
  if (rows.length === 1 && across.length === 1 && first.node.kind === 'text') {
    return { kind: 'number', value: rows[0]?.figures[0] ?? 0 };
  }
  const table: Node = {
    kind: 'array',
    rows: rows.map(({ figures }) => figures.map((value) => ({ kind: 'number', value }))),
  };
  const places: Node[] = [
    placeOf(
      first.node,
      rows.map(({ word }) => word),
    ),
  ];
  if (second !== undefined) places.push(placeOf(second.node, across));
  else places.push({ kind: 'number', value: 1 });
  return { kind: 'call', name: 'INDEX', args: [table, ...places] };
}

/** Where a word stands among others; a word that is written there needs no looking for. */
function placeOf(node: Node, words: readonly string[]): Node {
  if (node.kind === 'text' && words.length === 1) return { kind: 'number', value: 1 };
  const list: Node = { kind: 'array', rows: [words.map((value) => ({ kind: 'text', value }))] };
  return { kind: 'call', name: 'MATCH', args: [node, list, { kind: 'number', value: 0 }] };
}

/** Names of the functions whose figures can be written out. */
export const FIGURES_WRITTEN_OUT: readonly string[] = Object.keys(FORMS);
