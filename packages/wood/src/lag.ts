import { lengthOf, numberOf, optional, textOf } from './arguments.ts';
import { FILM_SOURCE } from './data/finish-films.ts';
import type { ArgumentDescription, FunctionDescription } from './describe.ts';
import { acrossGrain, Slices } from './diffusion.ts';
import { Fault } from './fault.ts';
import { faceTransfer, filmTaken, kelvin } from './films.ts';
import { SPECIES_ARGUMENT } from './find-species.ts';
import { gravityAt } from './gravity.ts';
import { between, positive } from './guards.ts';
import { CUT_ARGUMENT, cautionBeyondFit, ringAngle } from './moisture.ts';
import { type RestsOn, rests, unnoted } from './rests.ts';
import { moveAtAngle, specificGravity } from './species.ts';

const DAY = numberOf('number', 'day', 'days since the air was driest, 0 to 365');
const THICKNESS = lengthOf('thickness', 'thickness of the panel');
const WIDTH = lengthOf('width', 'width of the panel across the grain');
const DRY = numberOf('moisture', 'moisture_dry', 'what the driest air would bring it to, percent');
const HUMID = numberOf(
  'moisture',
  'moisture_humid',
  'what the most humid air would bring it to, percent',
);
const face = (name: string, where: string): ArgumentDescription =>
  optional(
    textOf(name, `finish on the ${where} face, such as "varnish, 3 coats", or "none"`),
    '"none"',
  );
const ABOVE = face('finish_above', 'top');
const BELOW = face('finish_below', 'bottom');
const TEMPERATURE = optional(
  numberOf('temperature', 'temperature', 'temperature of the room, all year'),
  '70 °F (21 °C)',
);

const BARE = 'none';
const ROOM = 70;

const YEAR = 365;
/** Steps of five days and sixteen slices: finer ones change no result by a thousandth (tests). */
const STEPS = 73;
const STEP = (YEAR / STEPS) * 86_400;
const SLICES = 16;
const THINNEST = 1 / 64;
const THICKEST = 6;
const METRES = 0.0254;
/** Seasons nearer to each other than this, in percent, are one. */
const LEAST_SWING = 1e-6;

/** A year of a panel that has long been where it is, a value for each step. */
interface Year {
  /** Mean moisture content through the thickness, %. */
  readonly mean: readonly number[];
  /** How much moister the lower side is than the upper, % for each inch of the best straight line. */
  readonly lean: readonly number[];
}

/** Arguments that all of these functions share, in their order. */
type Panel = readonly [
  thickness: number,
  species: string,
  dry: number,
  humid: number,
  above: string,
  below: string,
  temperature: number,
];

/** Years worked out lately: a sheet asks for each day of the same one. */
const lately = new Map<string, Year>();
const MOST_KEPT = 64;

const SPREADING: RestsOn = {
  of: 'How fast moisture spreads across the grain',
  how: 'memory',
  source: 'J. F. Siau, Transport Processes in Wood (1984)',
  note: 'Measured woods scatter about it by a factor of two or three.',
};

function yearOf(panel: Panel): Year {
  rests(SPREADING);
  for (const finish of [panel[4], panel[5]]) if (typeof finish === 'string') filmTaken(finish);
  // By its gravity: a wood of the maker's own may have another tomorrow.
  const key = JSON.stringify([...panel, specificGravity(panel[1])]);
  const kept = lately.get(key);
  if (kept !== undefined) return kept;
  const year = unnoted(() => workedOut(panel));
  const [oldest] = lately.keys();
  if (lately.size >= MOST_KEPT && oldest !== undefined) lately.delete(oldest);
  lately.set(key, year);
  return year;
}

function workedOut([thick, species, dryEnd, humidEnd, above, below, temperature]: Panel): Year {
  const thickness = between(THICKNESS, thick, THINNEST, THICKEST) * METRES;
  const [oneEnd, otherEnd] = [between(DRY, dryEnd, 0, 30), between(HUMID, humidEnd, 0, 30)];
  const [dry, humid] = [Math.min(oneEnd, otherEnd), Math.max(oneEnd, otherEnd)];
  if (humid - dry < LEAST_SWING) {
    throw new Fault({
      class: 'range',
      argument: HUMID.name,
      got: humid,
      quantity: HUMID.quantity,
      takes: 'another moisture content than moisture_dry, which is {n}',
      bounds: [dry],
    });
  }
  const warmth = kelvin(between(TEMPERATURE, temperature, 32, 130));
  const middle = (dry + humid) / 2;
  const gravity = specificGravity(species);
  const density = 1000 * gravityAt(gravity, middle);
  const sheet = {
    thickness,
    diffusivity: (moisture: number) => acrossGrain(gravityAt(gravity, moisture), moisture, warmth),
    faces: [faceTransfer(ABOVE, above, density), faceTransfer(BELOW, below, density)],
  } as const;
  const air = (step: number): number =>
    middle - ((humid - dry) / 2) * Math.cos((2 * Math.PI * step) / STEPS);
  // From the driest air on: begun at another moisture, a thin panel would swing beyond the air for years.
  const slices = new Slices(sheet, SLICES, dry);
  const carryOn = (step: number): void => slices.advance(STEP, (air(step) + air(step + 1)) / 2);
  // A panel forgets how it began within some years; a thick sealed one takes long.
  for (let year = 0; year < 300; year += 1) {
    const before = Float64Array.from(slices.moisture);
    for (let step = 0; step < STEPS; step += 1) carryOn(step);
    if (before.every((was, i) => Math.abs(was - (slices.moisture[i] ?? 0)) < 1e-11)) break;
  }
  const mean: number[] = [];
  const lean: number[] = [];
  for (let step = 0; step < STEPS; step += 1) {
    mean.push(slices.mean);
    lean.push(slices.lean * METRES);
    carryOn(step);
  }
  return { mean, lean };
}

/**
 * Mean moisture content of a panel on a day of the year, years after it came to its place.
 * @param day days since the air was driest, 0 to 365
 * @param thickness in, 1/64 to 6
 * @param species any usual name
 * @param moistureDry %, 0 to 30: equilibrium with the driest air
 * @param moistureHumid %, 0 to 30, another; given the other way round, they are exchanged
 * @param finishAbove `none` when left out
 * @param finishBelow `none` when left out
 * @param temperature °F, 32 to 130; 70 when left out
 * @returns % moisture content
 * @throws Fault `kind`, `range`, `unknown`
 * Source: Fick's second law through the thickness, solved by {@link Slices}; diffusivity by
 * {@link acrossGrain}, films by {@link faceTransfer}.
 */
export function panelMoisture(
  day: number,
  thickness: number,
  species: string,
  moistureDry: number,
  moistureHumid: number,
  finishAbove = BARE,
  finishBelow = BARE,
  temperature = ROOM,
): number {
  const on = between(DAY, day, 0, YEAR);
  const { mean } = yearOf([
    thickness,
    species,
    moistureDry,
    moistureHumid,
    finishAbove,
    finishBelow,
    temperature,
  ]);
  const at = (on / YEAR) * STEPS;
  const before = Math.floor(at);
  const [a, b] = [mean[before % STEPS] ?? 0, mean[(before + 1) % STEPS] ?? 0];
  // The last digits of the arithmetic may lie beyond the air; the panel does not.
  const [dry, humid] = [Math.min(moistureDry, moistureHumid), Math.max(moistureDry, moistureHumid)];
  return Math.min(humid, Math.max(dry, a + (b - a) * (at - before)));
}

/**
 * Share of the air's yearly swing that the panel as a whole goes through.
 * Arguments as for {@link panelMoisture}, without the day.
 * @returns 0 to 1
 * @throws Fault `kind`, `range`, `unknown`
 */
export function swingFollowed(
  thickness: number,
  species: string,
  moistureDry: number,
  moistureHumid: number,
  finishAbove = BARE,
  finishBelow = BARE,
  temperature = ROOM,
): number {
  const { mean } = yearOf([
    thickness,
    species,
    moistureDry,
    moistureHumid,
    finishAbove,
    finishBelow,
    temperature,
  ]);
  const swing = Math.max(...mean) - Math.min(...mean);
  return Math.min(1, swing / Math.abs(moistureHumid - moistureDry));
}

/**
 * How long after the air the panel is at its driest and its moistest.
 * Arguments as for {@link panelMoisture}, without the day.
 * @returns h
 * @throws Fault `kind`, `range`, `unknown`
 */
export function moistureLag(
  thickness: number,
  species: string,
  moistureDry: number,
  moistureHumid: number,
  finishAbove = BARE,
  finishBelow = BARE,
  temperature = ROOM,
): number {
  const { mean } = yearOf([
    thickness,
    species,
    moistureDry,
    moistureHumid,
    finishAbove,
    finishBelow,
    temperature,
  ]);
  // The yearly wave of the panel against that of the air, which starts at its driest.
  const wave = (of: (angle: number) => number): number =>
    mean.reduce((sum, m, step) => sum + m * of((2 * Math.PI * step) / STEPS), 0);
  return (24 * YEAR * Math.atan2(-wave(Math.sin), -wave(Math.cos))) / (2 * Math.PI);
}

/**
 * Deepest hollow of a free panel over the year, from one side being moister than the other.
 * @param width in, across the grain
 * @param cut as for MOVEMENT
 * Other arguments as for {@link panelMoisture}, without the day.
 * @returns in, 0 when both faces are alike
 * @throws Fault `kind`, `range`, `unknown`
 * Source: as {@link panelMoisture}; curvature of a free elastic strip from the best straight line
 * through its free strains (beam theory), hollow = curvature x width² / 8. No restraint by a base, no
 * creep, and no cup of a board's own rings.
 */
export function cupDepth(
  width: number,
  thickness: number,
  species: string,
  moistureDry: number,
  moistureHumid: number,
  finishAbove = BARE,
  finishBelow = BARE,
  cut: string | number = 'flat',
  temperature = ROOM,
): number {
  const across = positive(WIDTH, width);
  const move = moveAtAngle(species, ringAngle(cut));
  cautionBeyondFit(moistureDry, moistureHumid);
  const { lean } = yearOf([
    thickness,
    species,
    moistureDry,
    moistureHumid,
    finishAbove,
    finishBelow,
    temperature,
  ]);
  const depth = (move * Math.max(...lean.map(Math.abs)) * across ** 2) / 8;
  // Faces that are alike leave only the noise of the arithmetic.
  return depth < 1e-9 * across ? 0 : depth;
}

const SHARED = [THICKNESS, SPECIES_ARGUMENT, DRY, HUMID, ABOVE, BELOW] as const;
const MODEL = `Fick's second law through the thickness over a year; diffusivity of cell walls after Siau (1984), from memory; films fitted to the published ${FILM_SOURCE}`;
const ASSUMED =
  'An estimate. The air swings evenly over the year at one temperature; real boards differ in diffusivity by a factor of two or three; the film passes water in proportion to the difference in moisture content; edges and ends are left out. Finish slows movement, it does not stop it: leave room for the full movement.';

export const LAG_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'PANEL_MOISTURE',
    task: 'Moisture and movement',
    answers: 'How moist a finished panel is on a day of the year, averaged through its thickness.',
    args: [DAY, ...SHARED, TEMPERATURE],
    result: { quantity: 'moisture', means: 'mean moisture content through the thickness' },
    source: MODEL,
    example:
      '=PANEL_MOISTURE(90, 1.5, "white oak", 5.4, 10.9, "varnish, 3 coats", "varnish, 3 coats")',
    notes: ASSUMED,
    run: panelMoisture,
  },
  {
    name: 'SWING_FOLLOWED',
    task: 'Moisture and movement',
    answers: 'How much of the yearly swing of the air a finished panel follows.',
    args: [...SHARED, TEMPERATURE],
    result: { quantity: 'ratio', means: 'share of the swing, 0 to 1' },
    source: MODEL,
    example: '=SWING_FOLLOWED(1.5, "white oak", 5.4, 10.9, "varnish, 3 coats", "varnish, 3 coats")',
    notes: ASSUMED,
    run: swingFollowed,
  },
  {
    name: 'MOISTURE_LAG',
    task: 'Moisture and movement',
    answers:
      'How long a finished panel lags behind the room, from the driest air to the driest wood.',
    args: [...SHARED, TEMPERATURE],
    result: { quantity: 'duration', means: 'delay; divided by 24 it is in days' },
    source: MODEL,
    example: '=MOISTURE_LAG(1.5, "white oak", 5.4, 10.9, "varnish, 3 coats", "varnish, 3 coats")',
    notes: ASSUMED,
    run: moistureLag,
  },
  {
    name: 'CUP_DEPTH',
    task: 'Moisture and movement',
    answers: 'How far an unfastened panel cups in a year when its faces are not finished alike.',
    args: [WIDTH, ...SHARED, CUT_ARGUMENT, TEMPERATURE],
    result: {
      quantity: 'length',
      means: 'depth of the cup over the width; 0 for faces finished alike',
      fine: true,
    },
    source: `${MODEL}; curvature from beam theory`,
    example: '=CUP_DEPTH(42, 1.5, "white oak", 5.4, 10.9, "varnish, 3 coats", "none")',
    notes: `${ASSUMED} Nothing holds the panel flat, and the cup that growth rings give a board is left out.`,
    run: cupDepth,
  },
];
