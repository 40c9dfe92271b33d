import { ownWood } from '../hostile/tables/own-wood.ts';
import { type Inputs, numberOf } from './books.ts';
import { emc, weight } from './dining-table-by-hand.ts';

/**
 * What furniture of solid wood has in common, worked out from its inputs by published equations and
 * coefficients, and by the trade's own rules, each named. Us units throughout.
 */

/** NHLA rough thicknesses, and what is left once both faces are planed (10/4 and up from memory). */
const PLANED: Readonly<Record<string, number>> = {
  '4/4': 13 / 16,
  '5/4': 1 + 1 / 16,
  '6/4': 1 + 5 / 16,
  '8/4': 1.75,
  '10/4': 2.25,
  '12/4': 2.75,
};

const RINGS: Readonly<Record<string, number>> = { flat: 0, rift: 45, quarter: 90 };

/** The next whole number up, where rounding has not put it a hair above one. */
export const up = (value: number): number => Math.ceil(value - 1e-9);
/** The next whole number down. */
export const down = (value: number): number => Math.floor(value + 1e-9);

/** @throws Error where it is no word */
export function wordOf(inputs: Inputs, name: string): string {
  const value = inputs[name];
  if (typeof value !== 'string') throw new Error(`no word ${name}`);
  return value;
}

/** What the boards plane to. @throws Error for a thickness this test has no figure for */
export function planedOf(inputs: Inputs): number {
  const planed = PLANED[wordOf(inputs, 'rough_quarters')];
  if (planed === undefined) throw new Error('a thickness that is not in the tables of this test');
  return planed;
}

/** lb of so many in³ at the moisture it is built with: Wood Handbook, chapter 4. */
export const weighed = (inputs: Inputs, volume: number): number =>
  weight(ownWood(wordOf(inputs, 'species')).gravity, volume, numberOf(inputs, 'moisture_build'));

/** Change across the grain for 1 % of moisture, a part of 1: Wood Handbook, table 13-5, turned with the rings. */
export function rateOf(inputs: Inputs): number {
  const { radial, tangential } = ownWood(wordOf(inputs, 'species'));
  const turn = ((RINGS[wordOf(inputs, 'cut')] ?? 0) * Math.PI) / 180;
  return tangential * Math.cos(turn) ** 2 + radial * Math.sin(turn) ** 2;
}

/** Moisture that wood settles at in both seasons: Wood Handbook, equation 4-5. */
export function seasonsOf(inputs: Inputs): { readonly dry: number; readonly humid: number } {
  const at = (name: string): number => numberOf(inputs, name);
  return {
    dry: emc(at('dry_temperature'), at('dry_humidity')),
    humid: emc(at('humid_temperature'), at('humid_humidity')),
  };
}

/** A board is ripped to the next mark on the rule, or the panel is too narrow; but no wider than boards may be. */
export function rippedTo(inputs: Inputs, exact: number): number {
  const [mark, widest] = [numberOf(inputs, 'mark_on_rule'), numberOf(inputs, 'widest_board')];
  return Math.max(exact, Math.min(widest, Math.ceil(Number((exact / mark).toFixed(6))) * mark));
}

/** The panel and how it moves: a seat or a top of boards. */
export function panelOf(inputs: Inputs, length: number, width: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const { dry, humid } = seasonsOf(inputs);
  const rate = rateOf(inputs);
  const planed = planedOf(inputs);
  // n boards lose n - 1 joints, and none is wider than the widest before it is jointed.
  const boards = up((width - at('joint_loss')) / (at('widest_board') - at('joint_loss')));
  let stages = 0;
  for (let joined = 1; joined < boards; joined *= at('at_once')) stages += 1;
  // Clamped before it is trimmed.
  const joint = length + at('trim_length');
  const force = joint * planed * at('clamp_pressure');
  const spaced = up((joint - 2 * at('clamp_end')) / at('clamp_spacing')) + 1;
  return {
    panel_boards: boards,
    panel_board_width: rippedTo(inputs, (width + (boards - 1) * at('joint_loss')) / boards),
    panel_board_length: length + at('trim_length'),
    glue_stages: stages,
    clamp_force: force,
    clamp_count_spaced: spaced,
    clamp_count: Math.max(spaced, up(force / at('clamp_rating'))),
    // 200 ft² to the gallon of 128 fl oz, as glue makers' sheets have it: 225 in² to the ounce.
    glue_volume: ((boards - 1) * joint * planed) / 225,
    moisture_dry: dry,
    moisture_humid: humid,
    movement_swing: width * rate * (humid - dry),
    movement_from_build_dry: width * rate * (dry - at('moisture_build')),
    movement_from_build_humid: width * rate * (humid - at('moisture_build')),
  };
}

/** Fasteners along a way so that none is farther from the next than the spacing. */
export const fastenersAlong = (inputs: Inputs, way: number): number =>
  up((way - 2 * numberOf(inputs, 'fastener_end')) / numberOf(inputs, 'fastener_spacing')) + 1;

/** Finish, the first coat thirstier, and what stays in rags and brushes. */
export function finishOf(inputs: Inputs, area: number): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const covered =
    (area * (at('coats') + at('first_coat_more') / 100)) / (1 - at('finish_loss') / 100);
  // Coverage is kept as in² to the fl oz.
  const volume = covered / at('coverage');
  return { area_finish: area, finish_volume: volume, finish_cans: up(volume / at('can_size')) };
}

/** From what is bought, hardware as money, and the hours to the price. */
export function moneyOf(
  inputs: Inputs,
  hours: number,
  planCost: number,
  bought: { readonly hardware: number; readonly cans: number; readonly glue: number },
): Record<string, number> {
  const at = (name: string): number => numberOf(inputs, name);
  const material =
    planCost * (1 + at('spare_percent') / 100) +
    bought.hardware +
    bought.cans * at('can_price') +
    (bought.glue / at('glue_bottle')) * at('glue_price') +
    at('cost_consumables');
  const labour = hours * at('hourly_rate');
  const total = (material + labour) * (1 + at('overhead_percent') / 100) + at('cost_delivery');
  const price = total / (1 - at('profit_percent') / 100);
  return {
    cost_material: material,
    cost_labour: labour,
    cost_total: total,
    price,
    deposit: (price * at('deposit_percent')) / 100,
  };
}

/** in² of the tenons that one wide tenon is split into: none wider than 6 times its thickness, gaps as wide as that. */
export function tenonArea(width: number, thickness: number): number {
  const count = Math.max(1, up(width / (6 * thickness)));
  return thickness * (width - (count - 1) * thickness);
}

/** Width of a tenon: two thirds of its rail, with 1/4 in at least above and below. */
export const tenonWide = (rail: number): number => Math.min((rail * 2) / 3, rail - 1 / 2);

/** Sag in the middle under a load there, ends resting: P L³ / 48 E I (Wood Handbook, equation 9-2, bending term). */
export const sagPoint = (
  span: number,
  load: number,
  width: number,
  depth: number,
  stiffness: number,
): number => (load * span ** 3) / (48 * stiffness * ((width * depth ** 3) / 12));

/** Stress of a bending moment on a rectangular section: M over b d² / 6. */
export const stressOf = (moment: number, width: number, depth: number): number =>
  moment / ((width * depth ** 2) / 6);
