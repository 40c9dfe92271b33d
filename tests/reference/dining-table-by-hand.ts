import { expect } from 'vitest';

/**
 * The dining table worked out without Kerfbook: from the template's own promises, the published
 * equations and the published coefficients, each named. Us units throughout.
 */

/** What the sum starts from: the inputs promised and, beyond them, what this template adds. */
export interface Table {
  readonly top_length: number;
  readonly top_width: number;
  readonly top_thickness: number;
  readonly table_height: number;
  readonly species: string;
  readonly cut: string;
  readonly overhang_end: number;
  readonly overhang_side: number;
  readonly leg_size: number;
  readonly apron_width: number;
  readonly apron_thickness: number;
  readonly apron_setback: number;
  readonly tenon_length: number;
  readonly joint_loss: number;
  /** The smallest on a rule, a sixteenth or a millimeter. */
  readonly mark_on_rule: number;
  readonly widest_board: number;
  readonly at_once: number;
  readonly trim_length: number;
  readonly clamp_spacing: number;
  readonly clamp_end: number;
  readonly clamp_pressure: number;
  readonly clamp_rating: number;
  readonly moisture_build: number;
  readonly dry_temperature: number;
  readonly dry_humidity: number;
  readonly humid_temperature: number;
  readonly humid_humidity: number;
  readonly rough_quarters: string;
  readonly waste_percent: number;
  readonly wood_price: number;
  readonly hourly_rate: number;
  readonly overhead_percent: number;
  readonly profit_percent: number;
  readonly per_seat: number;
  readonly support_gap: number;
  readonly support_width: number;
  readonly hours_total: number;
  readonly days_elapsed: number;
  readonly plan_cost: number;
  readonly spare_percent: number;
  readonly material_but_wood: number;
  readonly deposit_percent: number;
}

/**
 * Wood Handbook (FPL-GTR-190, 2010): radial and tangential change for 1 % of moisture, table 13-5
 * (white oak: the commercial row); specific gravity at 12 %, table 5-3b. Gravities of white oak and
 * ash are values from memory.
 */
export const WOODS: Readonly<Record<string, { cr: number; ct: number; gravity: number }>> = {
  'black walnut': { cr: 0.0019, ct: 0.00274, gravity: 0.55 },
  'white oak': { cr: 0.0018, ct: 0.00365, gravity: 0.68 },
  'sugar maple': { cr: 0.00165, ct: 0.00353, gravity: 0.63 },
  'black cherry': { cr: 0.00126, ct: 0.00248, gravity: 0.5 },
  'white ash': { cr: 0.00169, ct: 0.00274, gravity: 0.6 },
};

/** Wood Handbook equation 4-5 with its Fahrenheit constants (Simpson 1973). */
export function emc(t: number, percent: number): number {
  const h = percent / 100;
  const w = 330 + 0.452 * t + 0.00415 * t * t;
  const k = 0.791 + 0.000463 * t - 0.000000844 * t * t;
  const k1 = 6.34 + 0.000775 * t - 0.0000935 * t * t;
  const k2 = 1.09 + 0.0284 * t - 0.0000904 * t * t;
  const kh = k * h;
  const hydrates = (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh);
  return (1800 / w) * (kh / (1 - kh) + hydrates);
}

/** Wood Handbook chapter 4: 62.4 G (1 + M/100) lb/ft³, G on the volume at that moisture. */
export function weight(gravity12: number, cubicInches: number, moisture: number): number {
  const share = (m: number) => 0.265 * Math.max(0, (30 - m) / 30);
  const green = gravity12 / (1 + share(12) * gravity12);
  const now = green / (1 - share(moisture) * green);
  return (cubicInches / 1728) * 62.4 * now * (1 + moisture / 100);
}

const RINGS: Readonly<Record<string, number>> = { flat: 0, rift: 45, quarter: 90 };
/** NHLA rough thicknesses are the name itself: 8/4 is 2 in. */
const ROUGH: Readonly<Record<string, number>> = { '8/4': 2, '10/4': 2.5 };

/** What is left of them once both faces are planed, as they are glued: NHLA rules, 10/4 from memory. */
const PLANED: Readonly<Record<string, number>> = { '8/4': 1.75, '10/4': 2.25 };

const up = (value: number): number => Math.ceil(value - 1e-9);
const down = (value: number): number => Math.floor(value + 1e-9);

export function tableOf(t: Table): Readonly<Record<string, number>> {
  const wood = WOODS[t.species];
  const rough = ROUGH[t.rough_quarters];
  const planed = PLANED[t.rough_quarters];
  if (wood === undefined || rough === undefined || planed === undefined) {
    throw new Error('not in the tables of this test');
  }
  const turn = ((RINGS[t.cut] ?? 0) * Math.PI) / 180;
  const rate = wood.ct * Math.cos(turn) ** 2 + wood.cr * Math.sin(turn) ** 2;
  const dry = emc(t.dry_temperature, t.dry_humidity);
  const humid = emc(t.humid_temperature, t.humid_humidity);
  const swing = t.top_width * rate * Math.abs(humid - dry);
  // n boards lose n − 1 joints, and none is wider than the widest before it is jointed.
  const boards = up((t.top_width - t.joint_loss) / (t.widest_board - t.joint_loss));
  // Ripped to the next mark on the rule, though no wider than the widest.
  const each = (t.top_width + (boards - 1) * t.joint_loss) / boards;
  let stages = 0;
  for (let joined = 1; joined < boards; joined *= t.at_once) stages += 1;
  // Clamped before it is trimmed.
  const joint = t.top_length + t.trim_length;
  const force = joint * planed * t.clamp_pressure;
  const spaced = up((joint - 2 * t.clamp_end) / t.clamp_spacing) + 1;
  const clear = t.top_length - 2 * t.overhang_end - 2 * t.leg_size;
  const supports = up(clear / t.support_gap) - 1;
  const deepest = supports > 0 ? Math.max(t.apron_width, t.support_width) : t.apron_width;
  const net = (rough * t.top_width * t.top_length) / 144;
  const buy = net * (1 + t.waste_percent / 100);
  const seats =
    2 * down(t.top_length / t.per_seat) + 2 * Math.min(1, down(t.top_width / t.per_seat));
  const material = t.plan_cost * (1 + t.spare_percent / 100) + t.material_but_wood;
  const labour = t.hours_total * t.hourly_rate;
  const overhead = ((material + labour) * t.overhead_percent) / 100;
  const total = material + labour + overhead;
  const price = total / (1 - t.profit_percent / 100);
  return {
    apron_long: t.top_length - 2 * t.overhang_end - 2 * t.leg_size + 2 * t.tenon_length,
    apron_short: t.top_width - 2 * t.overhang_side - 2 * t.leg_size + 2 * t.tenon_length,
    support_length: t.top_width - 2 * (t.overhang_side + t.apron_setback + t.apron_thickness),
    support_count: supports,
    panel_boards: boards,
    panel_board_width: Math.max(
      each,
      Math.min(
        t.widest_board,
        Math.ceil(Number((each / t.mark_on_rule).toFixed(6))) * t.mark_on_rule,
      ),
    ),
    glue_stages: stages,
    clamp_force: force,
    // 200 ft² to the gallon of 128 fl oz, as glue makers' sheets have it: 225 in² to the ounce.
    glue_volume: ((boards - 1) * joint * planed) / 225,
    clamp_count_spaced: spaced,
    clamp_count: Math.max(spaced, up(force / t.clamp_rating)),
    boardfeet_net: net,
    boardfeet_buy: buy,
    cost_top_wood: buy * t.wood_price,
    moisture_dry: dry,
    moisture_humid: humid,
    movement_swing: swing,
    movement_each_side: swing / 2,
    movement_from_build_dry: t.top_width * rate * (dry - t.moisture_build),
    movement_from_build_humid: t.top_width * rate * (humid - t.moisture_build),
    knee_room: t.table_height - t.top_thickness - deepest,
    seats,
    top_weight: weight(
      wood.gravity,
      t.top_length * t.top_width * t.top_thickness,
      t.moisture_build,
    ),
    hours_total: t.hours_total,
    days_elapsed: t.days_elapsed,
    cost_material: material,
    cost_labour: labour,
    cost_overhead: overhead,
    cost_total: total,
    price,
    price_per_seat: price / seats,
    deposit: (price * t.deposit_percent) / 100,
  };
}

interface Relative {
  toBeCloseToRelative(expected: number): void;
}

declare module 'vitest' {
  interface Assertion extends Relative {}
}

expect.extend({
  /** Equal to one part in a thousand million. */
  toBeCloseToRelative(received: unknown, expected: number) {
    const close =
      typeof received === 'number' &&
      Math.abs(received - expected) <= 1e-9 * Math.max(1, Math.abs(expected));
    return { pass: close, message: () => `${String(received)} is not ${expected} to 1e-9` };
  },
});
