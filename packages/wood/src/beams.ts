import { lengthOf, numberOf, optional, textOf } from './arguments.ts';
import { CREEP_ROWS } from './data/lasting-load.ts';
import type { ArgumentDescription, FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { SPECIES_ARGUMENT, speciesFigure } from './find-species.ts';
import { between, mostOf, notNegative, oneOf, positive, words } from './guards.ts';
import { notKnown } from './nearest.ts';
import { rests } from './rests.ts';
import { stiffness } from './species.ts';

/** The wood of a part that bends, or any material by its stiffness. */
export const BENT_OF: ArgumentDescription = {
  ...SPECIES_ARGUMENT,
  means: 'the wood by any usual name, or a stiffness, as SHEET_STIFFNESS gives it',
  takes: 'either',
  quantity: 'pressure',
};

/** How the ends of a span are held. */
export const ENDS = optional(
  textOf(
    'ends',
    'how both ends are held: "resting" on supports, or "fixed" so that they cannot turn',
  ),
  '"resting"',
);

/** How both ends of a span are held. */
export type Ends = 'resting' | 'fixed';

/** The way of holding that a text names. */
export const endsOf = (text: unknown): Ends => oneOf(ENDS, text, ['resting', 'fixed']);

/** What no board of any kind goes under, or over, psi. */
const SOFTEST = 1e3;
const STIFFEST = mostOf('pressure') * 10;

/** Stiffness of a wood, or the one that is given, psi. */
export function stiffnessOf(species: string | number): number {
  return typeof species === 'number'
    ? between(BENT_OF, species, SOFTEST, STIFFEST)
    : stiffness(species);
}

const WIDTH = lengthOf('width', 'size of the part across the load');
const DEPTH = lengthOf(
  'depth',
  'size of the part in the direction of the load: the height of an apron on edge',
);
const SPAN = lengthOf('span', 'clear length between the supports');
const SPREAD_LOAD = numberOf('load_per_length', 'load_per_length', 'load spread along the span');
const LOAD = numberOf('force', 'load', 'load in the middle of the span');
const OVERHANG = lengthOf('overhang', 'how far the part extends past its last support');
const END_LOAD = numberOf('force', 'load', 'load at its free end');
const BACK_SPAN = optional(
  lengthOf(
    'back_span',
    'from that support back to the next one; 0 where the part is clamped there',
  ),
  '0',
);
const OVERHANG_LOAD = optional(
  numberOf('load_per_length', 'load_per_length', 'load spread along the overhang'),
  '0',
);
const SAG = lengthOf('sag', 'sag when the load is new');
const LASTING = optional(
  {
    name: 'material',
    means:
      'what stays under load: "dry wood", "green wood", "plywood", "OSB", "particleboard", "MDF", or how many times its first sag it comes to, 1 to 5',
    takes: 'either',
    quantity: 'ratio',
  },
  '"dry wood"',
);

/** Bending stiffness E·I of a rectangular part, lbf·in². */
export function bendingStiffness(width: number, depth: number, species: string | number): number {
  const inertia = (positive(WIDTH, width) * positive(DEPTH, depth) ** 3) / 12;
  return stiffnessOf(species) * inertia;
}

/** A sag past a tenth of the span: the equation no longer holds, and neither would the part. */
export const DEEPEST_SAG = 0.1;

/** A sag that the equations still hold for. */
export function believable(sag: number, span: number, depth: number): number {
  if (sag <= DEEPEST_SAG * span) return sag;
  throw new Fault({
    class: 'range',
    argument: DEPTH.name,
    got: depth,
    quantity: 'length',
    takes: 'a depth that sags less than {n}, a tenth of the span',
    bounds: [DEEPEST_SAG * span],
    hint: 'Make the part deeper, the span shorter or the load smaller.',
  });
}

/**
 * Sag of the free end of a part that extends past its last support.
 * @param overhang in
 * @param load lbf at the free end
 * @param width in, across the load
 * @param depth in, along the load
 * @param species any usual name, or a stiffness in psi
 * @param backSpan in, to the next support, on which the part rests; 0 (clamped) when left out
 * @param loadPerLength lbf/in along the overhang; 0 when left out
 * @returns in: P a² (L + a) / (3 E I) + w a³ (4 L + 3 a) / (24 E I)
 * @throws Fault `kind`, `unknown`; `range`, also when the sag would pass a tenth of the overhang
 * Source: Wood Handbook chapter 9, table 9-1 for the clamped end; engineering mechanics (textbook forms)
 * for the turn of the span behind it.
 */
export function sagOverhang(
  overhang: number,
  load: number,
  width: number,
  depth: number,
  species: string | number,
  backSpan = 0,
  loadPerLength = 0,
): number {
  const out = positive(OVERHANG, overhang);
  const back = notNegative(BACK_SPAN, backSpan);
  const force = notNegative(END_LOAD, load);
  const spread = notNegative(OVERHANG_LOAD, loadPerLength);
  const bending = bendingStiffness(width, depth, species);
  const byEnd = (force * out ** 2 * (back + out)) / (3 * bending);
  const bySpread = (spread * out ** 3 * (4 * back + 3 * out)) / (24 * bending);
  return believable(byEnd + bySpread, out, depth);
}

/**
 * Sag in the end under a load that stays.
 * @param sag in, when the load is new
 * @param material by name, or how many times its first sag it comes to, 1 to 5; dry wood when left out
 * @returns in
 * @throws Fault `kind`, `range`, `unknown`
 * Source: NDS 3.5.2 (1.5 seasoned, 2 unseasoned and panels) as the American Wood Council tells it, read;
 * OSB, particleboard and MDF: 1 + k_def of Eurocode 5, service class 1, from memory.
 */
export function sagLasting(sag: number, material: string | number = 'dry wood'): number {
  const first = notNegative(SAG, sag);
  if (typeof material === 'number') return first * between(LASTING, material, 1, 5);
  const takes = 'a material of the list, or a number';
  const asked = words(LASTING, material, takes);
  const found = CREEP_ROWS.find(([name]) => name.toLowerCase() === asked.toLowerCase());
  if (found !== undefined) {
    const [name, times, how, source] = found;
    rests({ of: `${name}: times its first sag`, value: times, quantity: 'ratio', how, source });
    return first * times;
  }
  throw notKnown(
    LASTING,
    asked,
    takes,
    CREEP_ROWS.map(([name]) => name),
  );
}

/** Stress in the outermost fibres of a rectangular part, psi. */
function stressOf(moment: number, width: number, depth: number): number {
  const stress = (6 * moment) / (positive(WIDTH, width) * positive(DEPTH, depth) ** 2);
  if (stress <= mostOf('pressure')) return stress;
  throw new Fault({
    class: 'range',
    argument: DEPTH.name,
    got: depth,
    quantity: 'length',
    takes: 'a depth that bears this load at all',
    hint: 'Make the part deeper, the span shorter or the load smaller.',
  });
}

/**
 * Greatest bending stress of a part under a load spread evenly between its supports.
 * @param span in
 * @param loadPerLength lbf/in
 * @param width in, across the load
 * @param depth in, along the load
 * @param ends "resting" (when left out) or "fixed"
 * @returns psi: 6 M / (width x depth²), M = w L² / 8 in the middle, or w L² / 12 at fixed ends
 * @throws Fault `kind`, `range`, `unknown`
 * Source: engineering mechanics (textbook forms).
 */
export function stressUniform(
  span: number,
  loadPerLength: number,
  width: number,
  depth: number,
  ends = 'resting',
): number {
  const load = notNegative(SPREAD_LOAD, loadPerLength);
  const share = { resting: 8, fixed: 12 }[endsOf(ends)];
  return stressOf((load * positive(SPAN, span) ** 2) / share, width, depth);
}

/**
 * Greatest bending stress of a part under a load in the middle between its supports.
 * @param span in
 * @param load lbf
 * @param width in, across the load
 * @param depth in, along the load
 * @param ends "resting" (when left out) or "fixed"
 * @returns psi: 6 M / (width x depth²), M = P L / 4, or P L / 8 where the ends are fixed
 * @throws Fault `kind`, `range`, `unknown`
 * Source: engineering mechanics (textbook forms).
 */
export function stressPoint(
  span: number,
  load: number,
  width: number,
  depth: number,
  ends = 'resting',
): number {
  const share = { resting: 4, fixed: 8 }[endsOf(ends)];
  const force = notNegative(LOAD, load);
  return stressOf((force * positive(SPAN, span)) / share, width, depth);
}

/**
 * Greatest bending stress of a part that extends past its last support: there.
 * @param overhang in
 * @param load lbf at the free end
 * @param width in, across the load
 * @param depth in, along the load
 * @param loadPerLength lbf/in along the overhang; 0 when left out
 * @returns psi: 6 M / (width x depth²), M = P a + w a² / 2
 * @throws Fault `kind`, `range`
 * Source: engineering mechanics (textbook forms).
 */
export function stressOverhang(
  overhang: number,
  load: number,
  width: number,
  depth: number,
  loadPerLength = 0,
): number {
  const out = positive(OVERHANG, overhang);
  const spread = notNegative(OVERHANG_LOAD, loadPerLength);
  return stressOf(notNegative(END_LOAD, load) * out + (spread * out ** 2) / 2, width, depth);
}

/**
 * Bending strength (modulus of rupture) at 12 % moisture, clear wood.
 * @param species any usual name
 * @returns psi
 * @throws Fault `kind`, `unknown`
 * Source: Wood Handbook tables 5-3b and 5-5b.
 */
export function bendingStrength(species: string): number {
  return speciesFigure(species, 'bendingStrength').value;
}

/** What goes with every answer about strength. */
export const ESTIMATE =
  'An estimate for choosing dimensions, not engineering approval: what people may fall from is for licensed practice and local codes.';
const CHAPTER_9 = 'Wood Handbook (FPL-GTR-190, 2010), chapter 9, table 9-1';
const TEXTBOOK = 'engineering mechanics, textbook forms';
const KEEP_UNDER =
  'Keep under a quarter of BENDING_STRENGTH: knots, sloping grain and a load that stays take the rest. That share is common practice, no source.';

export const BEAM_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'SAG_OVERHANG',
    task: 'Strength and stability',
    answers: 'How far the free end of a part that extends past its last support sags.',
    args: [OVERHANG, END_LOAD, WIDTH, DEPTH, BENT_OF, BACK_SPAN, OVERHANG_LOAD],
    result: { quantity: 'length', means: 'sag of the free end', fine: true },
    source: `${CHAPTER_9}; ${TEXTBOOK} for the span behind the support`,
    example: '=SAG_OVERHANG(18, 150, 12, 1, "white oak", 24)',
    notes: `With a back_span the part turns over its support and sags more: the overhang of a top on aprons has one. ${ESTIMATE}`,
    run: sagOverhang,
  },
  {
    name: 'SAG_LASTING',
    task: 'Strength and stability',
    answers: 'How far a sag grows under a load that stays, such as books.',
    args: [SAG, LASTING],
    result: { quantity: 'length', means: 'sag in the end', fine: true },
    source:
      'NDS 3.5.2 as the American Wood Council tells it, read: 1.5 for dry wood, 2 for green wood and panels; OSB 2.5, particleboard and MDF 3.25: Eurocode 5, service class 1, from memory',
    example: '=SAG_LASTING(0.1)',
    notes:
      'In rooms whose humidity swings it can reach three times the first sag. About half of what was added stays when the load is gone. An estimate.',
    run: sagLasting,
  },
  {
    name: 'STRESS_UNIFORM',
    task: 'Strength and stability',
    answers:
      'How much bending stress a load spread along a part between two supports puts on its wood.',
    args: [SPAN, SPREAD_LOAD, WIDTH, DEPTH, ENDS],
    result: { quantity: 'pressure', means: 'greatest bending stress' },
    source: TEXTBOOK,
    example: '=STRESS_UNIFORM(65, 2, 1.5, 3.5)',
    notes: `${KEEP_UNDER} ${ESTIMATE}`,
    run: stressUniform,
  },
  {
    name: 'STRESS_POINT',
    task: 'Strength and stability',
    answers:
      'How much bending stress a load in the middle of a part between two supports puts on its wood.',
    args: [SPAN, LOAD, WIDTH, DEPTH, ENDS],
    result: { quantity: 'pressure', means: 'greatest bending stress' },
    source: TEXTBOOK,
    example: '=STRESS_POINT(65, 150, 1.5, 3.5)',
    notes: `${KEEP_UNDER} ${ESTIMATE}`,
    run: stressPoint,
  },
  {
    name: 'STRESS_OVERHANG',
    task: 'Strength and stability',
    answers: 'How much bending stress a load puts on a part that extends past its last support.',
    args: [OVERHANG, END_LOAD, WIDTH, DEPTH, OVERHANG_LOAD],
    result: { quantity: 'pressure', means: 'greatest bending stress, at the support' },
    source: TEXTBOOK,
    example: '=STRESS_OVERHANG(12, 100, 24, 1)',
    notes: `${KEEP_UNDER} ${ESTIMATE}`,
    run: stressOverhang,
  },
  {
    name: 'BENDING_STRENGTH',
    task: 'Wood',
    answers: 'At what bending stress clear wood breaks (modulus of rupture).',
    args: [SPECIES_ARGUMENT],
    result: { quantity: 'pressure', means: 'modulus of rupture at 12 % moisture' },
    source:
      'Wood Handbook (FPL-GTR-190, 2010), tables 5-3b and 5-5b, 12 % moisture; many rows from memory',
    example: '=BENDING_STRENGTH("white oak")',
    notes:
      'An average of small clear pieces in a test of minutes: half of them broke under less. Under a load that stays ten years it holds about six tenths of that (from memory).',
    run: bendingStrength,
  },
];
