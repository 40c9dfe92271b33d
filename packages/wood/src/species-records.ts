import { EUROPEAN_ROWS } from './data/european-woods.ts';
import { INVENTORY_ROWS, INVENTORY_SOURCE, INVENTORY_STAND_INS } from './data/inventory-gravity.ts';
import {
  MECHANICAL_NOTES,
  MECHANICAL_ROWS,
  MECHANICAL_SOURCE,
} from './data/mechanical-properties.ts';
import {
  COEFFICIENT_NOTES,
  COEFFICIENT_ROWS,
  COEFFICIENT_SOURCE,
  SHRINKS_FROM_22,
} from './data/movement-coefficients.ts';
import { type How, howAt, type WoodClass } from './data/provenance.ts';
import { SHRINKAGE_ROWS, SHRINKAGE_SOURCE } from './data/shrinkage.ts';
import { ALSO_CALLED, GROUP_ROW, PROPER, SAID, SAME_WOOD } from './data/trade-names.ts';
import { basicFromGravity, gravityFromBasic } from './gravity.ts';

/** One published (or computed) value of a wood, with where it comes from. */
export interface Figure {
  /** In the unit of its property. */
  readonly value: number;
  /** Whether it was read, computed or remembered. */
  readonly how: How;
  /** The publication and its table. */
  readonly source: string;
  /** What is known against it. */
  readonly note?: string;
}

/**
 * `tangential`, `radial`: change per 1 % moisture, fraction of width. `specificGravity`: ovendry
 * mass on the volume at 12 % moisture. `stiffness`, `bendingStrength`: psi. `hardness`: lbf.
 */
export type SpeciesProperty =
  | 'tangential'
  | 'radial'
  | 'specificGravity'
  | 'stiffness'
  | 'bendingStrength'
  | 'hardness';

/** A wood with the figures that are known of it. */
export interface Species {
  /** As people say it: `white oak`. */
  readonly name: string;
  /** As the Wood Handbook indexes it: `Oak, white`. */
  readonly indexed: string;
  /** Its botanical name. */
  readonly botanical: string;
  /** Other names it is found by. */
  readonly alsoCalled: readonly string[];
  /** Hardwood or softwood. */
  readonly woodClass: WoodClass;
  /** By property; what is not known is left out. */
  readonly figures: Readonly<Partial<Record<SpeciesProperty, Figure>>>;
}

interface Draft {
  name: string;
  botanical: string;
  woodClass: WoodClass;
  alsoCalled: string[];
  figures: Partial<Record<SpeciesProperty, Figure>>;
}

const ourName = (row: string): string => SAME_WOOD[row] ?? row;

function figure(value: number, how: How, source: string, note?: string): Figure {
  return note === undefined ? { value, how, source } : { value, how, source, note };
}

/**
 * Change per 1 % moisture from total shrinkage S (%): C = (S/F) / (1 - S(F - 10)/F), S as a
 * fraction, F the moisture at which shrinking starts, 10 % the middle of the 6 to 14 % range.
 * Source: Wood Handbook (FPL-GTR-190) chapter 13, the relation behind table 13-5.
 */
export function coefficientFromShrinkage(shrinkagePercent: number, starts = 30): number {
  const perPoint = shrinkagePercent / 100 / starts;
  return perPoint / (1 - perPoint * (starts - 10));
}

function draftFor(
  drafts: Map<string, Draft>,
  row: string,
  botanical: string,
  woodClass: WoodClass,
) {
  const name = ourName(row);
  const draft = drafts.get(name) ?? { name, botanical, woodClass, alsoCalled: [], figures: {} };
  if (row !== name && !draft.alsoCalled.includes(row)) draft.alsoCalled.push(row);
  drafts.set(name, draft);
  return draft;
}

function addCoefficients(drafts: Map<string, Draft>): void {
  for (const [row, botanical, woodClass, radial, tangential, how] of COEFFICIENT_ROWS) {
    const { figures } = draftFor(drafts, row, botanical, woodClass);
    const note = COEFFICIENT_NOTES[row];
    figures.radial = figure(radial, howAt(how, 0), COEFFICIENT_SOURCE, note);
    figures.tangential = figure(tangential, howAt(how, 1), COEFFICIENT_SOURCE, note);
  }
}

const SOFTWOOD_GENERA = /^(Abies|Larix|Picea|Pinus)\b/;

/** Only for woods that table 13-5, which tells the class, has no row for. */
function classOf(botanical: string, table: string): WoodClass {
  if (table === '5-5b') return 'imported';
  return SOFTWOOD_GENERA.test(botanical) ? 'softwood' : 'hardwood';
}

function addMechanical(drafts: Map<string, Draft>): void {
  for (const row of MECHANICAL_ROWS) {
    const [name, botanical, table, at12, green, bending, stiffness, hardness, how] = row;
    const { figures } = draftFor(drafts, name, botanical, classOf(botanical, table));
    const source = `${MECHANICAL_SOURCE} ${table}`;
    const note = MECHANICAL_NOTES[name];
    if (at12 !== null) figures.specificGravity = figure(at12, howAt(how, 0), source, note);
    else if (green !== null) figures.specificGravity = fromGreen(green, howAt(how, 0), source);
    figures.bendingStrength = figure(bending, howAt(how, 1), source, note);
    figures.stiffness = figure(Math.round(stiffness * 1e6), howAt(how, 2), source, note);
    if (hardness !== null) figures.hardness = figure(hardness, howAt(how, 3), source, note);
  }
}

function fromGreen(green: number, how: How, source: string): Figure {
  const value = Number(gravityFromBasic(green, 12).toFixed(3));
  const note = `Worked out from ${green} on the green volume (${how}).`;
  return figure(value, 'computed', `${source}, by the chapter 4 volume relation`, note);
}

/** Fills in specific gravities that the Wood Handbook rows lack. */
function addInventory(drafts: Map<string, Draft>): void {
  for (const [row, , , at12] of INVENTORY_ROWS) {
    const draft = drafts.get(ourName(row));
    if (!draft || draft.figures.specificGravity || INVENTORY_STAND_INS.includes(row)) continue;
    draft.figures.specificGravity = figure(at12, 'read', INVENTORY_SOURCE);
  }
}

const KG_PER_M3_OF_WATER = 1000;
/** Exact by definition (NIST SP 811, appendix B): psi in one N/mm². */
const PSI_PER_NEWTON_PER_MM2 = 145.037737730209;

/** Woods of European yards: percent to fractions, density to gravity, N/mm² to psi. */
function addEuropean(drafts: Map<string, Draft>): void {
  for (const row of EUROPEAN_ROWS) {
    const { name, botanical, woodClass, swelling, density, bending, hardness } = row;
    const { figures } = draftFor(drafts, name, botanical, woodClass);
    const [radial, tangential] = swelling.is;
    const moves = (percent: number): Figure =>
      figure(Number((percent / 100).toFixed(5)), 'read', swelling.source, swelling.note);
    figures.radial = moves(radial);
    figures.tangential = moves(tangential);
    if (density !== undefined) figures.specificGravity ??= gravityOfDensity(density);
    if (bending !== undefined) {
      const [strength, stiffness] = bending.is;
      const psi = (newtons: number, step: number): number =>
        Math.round((newtons * PSI_PER_NEWTON_PER_MM2) / step) * step;
      figures.bendingStrength ??= figure(psi(strength, 100), 'read', bending.source);
      figures.stiffness ??= figure(psi(stiffness, 10_000), 'read', bending.source);
    }
    if (hardness !== undefined) figures.hardness ??= figure(hardness.is, 'read', hardness.source);
  }
}

/** Ovendry mass over the volume at 12 %, from a density. */
function gravityOfDensity(density: NonNullable<(typeof EUROPEAN_ROWS)[number]['density']>): Figure {
  const { is, at, source, how = 'computed', note } = density;
  const asGiven = is / KG_PER_M3_OF_WATER / (1 + at / 100);
  const at12 = gravityFromBasic(basicFromGravity(asGiven, at), 12);
  const from = `Worked out from ${is} kg/m³ ${at === 0 ? 'ovendry' : `at ${at} %`}.`;
  return figure(
    Number(at12.toFixed(3)),
    how,
    source,
    note === undefined ? from : `${from} ${note}`,
  );
}

function addGroupRows(drafts: Map<string, Draft>): void {
  for (const [name, group] of Object.entries(GROUP_ROW)) {
    const draft = drafts.get(name);
    const from = drafts.get(group)?.figures;
    if (!draft || !from?.radial || !from.tangential) continue;
    const note = `The row of the group it is sold in, "${group}" (${from.tangential.how}).`;
    draft.figures.radial ??= figure(from.radial.value, 'group', COEFFICIENT_SOURCE, note);
    draft.figures.tangential ??= figure(from.tangential.value, 'group', COEFFICIENT_SOURCE, note);
  }
}

function addFromShrinkage(drafts: Map<string, Draft>): void {
  for (const [row, , radial, tangential, , how] of SHRINKAGE_ROWS) {
    const figures = drafts.get(ourName(row))?.figures;
    if (!figures || figures.tangential || tangential === null) continue;
    const note = `Worked out from total shrinkage of ${radial} % and ${tangential} % (${howAt(how, 0)}).`;
    const computed = (shrinkage: number): Figure => {
      const value = Number(coefficientFromShrinkage(shrinkage).toFixed(5));
      return figure(value, 'computed', `${SHRINKAGE_SOURCE}, by the relation of chapter 13`, note);
    };
    figures.radial = computed(radial);
    figures.tangential = computed(tangential);
  }
}

/** Nearer than this, the printed five decimals and shrinkages of one agree. */
const ALIKE = 0.000015;
const SHRINKING: Readonly<Record<'r' | 'm', string>> = { r: 'read', m: 'from memory' };

/**
 * Holds movement coefficients against the wood's own total shrinkage: a remembered one that a shrinkage
 * that was read comes to counts as worked out, and one that differs says by how much.
 */
function holdAgainstShrinkage(drafts: Map<string, Draft>): void {
  for (const [row, , radial, tangential, , letters] of SHRINKAGE_ROWS) {
    const name = ourName(row);
    const figures = drafts.get(name)?.figures;
    const starts = SHRINKS_FROM_22.includes(name) ? 22 : 30;
    const held = (property: 'radial' | 'tangential', shrinkage: number | null): void => {
      const printed = figures?.[property];
      if (figures === undefined || printed === undefined || shrinkage === null) return;
      if (printed.how !== 'computed')
        figures[property] = against(printed, shrinkage, starts, letters);
    };
    held('radial', radial);
    held('tangential', tangential);
  }
}

function against(printed: Figure, shrinkage: number, starts: number, letters: string): Figure {
  const derived = coefficientFromShrinkage(shrinkage, starts);
  const from = `${shrinkage} % from ${starts} % moisture (${SHRINKING[letters === 'r' ? 'r' : 'm']})`;
  const noted = (sentence: string): string =>
    printed.note === undefined ? sentence : `${printed.note} ${sentence}`;
  if (Math.abs(derived - printed.value) < ALIKE) {
    if (printed.how !== 'memory' || letters !== 'r') return printed;
    const note = noted(`Remembered, and the same as its total shrinkage of ${from} comes to.`);
    return { ...printed, how: 'computed', note };
  }
  const share = Math.round(100 * Math.abs(derived / printed.value - 1));
  const than = derived > printed.value ? 'more' : 'less';
  return {
    ...printed,
    note: noted(
      `Its own total shrinkage, ${from}, would give ${derived.toFixed(5)}: ${share} % ${than}.`,
    ),
  };
}

function byIndex(a: Species, b: Species): number {
  if (a.indexed === b.indexed) return 0;
  return a.indexed < b.indexed ? -1 : 1;
}

/**
 * A name of the index as people say it within a sentence: "Oak, white" is `white oak`, "Oak, white
 * (commercial)" `white oak (commercial)`. Names of places and people keep their capitals.
 */
export function saidName(indexed: string): string {
  const said = SAID[indexed];
  if (said !== undefined) return said;
  const [, family = indexed, which, group = ''] =
    /^([^,(]+)(?:, ([^(]*[^ (]))?( \(.+\))?$/.exec(indexed) ?? [];
  const plain = PROPER.includes(family) ? family : family.charAt(0).toLowerCase() + family.slice(1);
  return `${which === undefined ? '' : `${which} `}${plain}${group}`;
}

function joinTables(): readonly Species[] {
  const drafts = new Map<string, Draft>();
  addCoefficients(drafts);
  addMechanical(drafts);
  addEuropean(drafts);
  addInventory(drafts);
  addGroupRows(drafts);
  addFromShrinkage(drafts);
  holdAgainstShrinkage(drafts);
  for (const [name, more] of Object.entries(ALSO_CALLED))
    drafts.get(name)?.alsoCalled.push(...more);
  return [...drafts.values()]
    .map(({ name, ...draft }) => ({ name: saidName(name), indexed: name, ...draft }))
    .sort(byIndex);
}

/** Every wood of the tables, each once, woods of one family together. */
export const SPECIES: readonly Species[] = joinTables();
