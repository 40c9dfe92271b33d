import { type Eye, gazeOf, type Triple } from './eye.ts';
import type { SeenFace } from './parallel.ts';
import { AXES, type Axis } from './scene.ts';
import { WOOD_TONES, type WoodTone } from './wood-tone.ts';

/** How light a face is, from 0 for those turned away from the light to {@link LIGHTEST}. */
export type Shade = number;

export const LIGHTEST = 6;

/**
 * The light comes over the left shoulder of whoever looks, mostly from above: shares of the
 * direction to the left, towards the eye and up. It goes round with the eye, so that however a
 * thing is turned its top is lightest, and of two sides in view the left one is the lighter.
 */
const LIGHT = { left: 0.55, toEye: 0.35, up: 0.9 } as const;

/** What a side in view gets at the least and what lies flat gets, of a light of length 1. */
const DIM = -0.5;
const BRIGHT = 0.81;

/** How light the face square to an axis is that looks towards an eye. */
export const shadeOf = (axis: Axis, eye: Eye): Shade => shadeAlong(towards(axis, eye), eye);

/** The direction along an axis that has the eye before it. */
function towards(axis: Axis, eye: Eye): Triple {
  const sign = (gazeOf(eye).toEye[AXES.indexOf(axis)] ?? 0) < 0 ? -1 : 1;
  return [axis === 'x' ? sign : 0, axis === 'y' ? sign : 0, axis === 'z' ? sign : 0];
}

/** A direction of what is turned half around the level line towards the eye. */
function turnedOver([x, y, z]: Triple, eye: Eye): Triple {
  const [rx, ry] = gazeOf(eye).right;
  const along = x * rx + y * ry;
  return [x - 2 * along * rx, y - 2 * along * ry, -z];
}

/** Steps of a curve from one shade to the next: so many that no facet of it stands out. */
const ON_CURVES = 4;

/** How many shades a curve can have. */
export const STEPS_OF_CURVES = LIGHTEST * ON_CURVES + 1;

/** How light a face is that looks along a direction of length 1; of a curve, in finer steps. */
export const shadeAlong = (normal: Triple, eye: Eye, curved = false): Shade =>
  curved ? stepsOfCurves(eye)(normal) / ON_CURVES : lighter(eye, 1)(normal);

/** For an eye, which step of the shades of curves a direction of length 1 has. */
export const stepsOfCurves = (eye: Eye): ((normal: Triple) => number) => lighter(eye, ON_CURVES);

/** For an eye, how many steps from the darkest a direction of length 1 is, by so many to a shade. */
function lighter(eye: Eye, steps: number): (normal: Triple) => number {
  const { right } = gazeOf(eye);
  const rx = right[0];
  const ry = right[1];
  // Towards the eye along the level: right turned a quarter.
  const lx = ry;
  const ly = -rx;
  const length = Math.hypot(LIGHT.left, LIGHT.toEye, LIGHT.up);
  return ([x, y, z]) => {
    const along = -LIGHT.left * (x * rx + y * ry) + LIGHT.toEye * (x * lx + y * ly) + LIGHT.up * z;
    const share = (along / length - DIM) / (BRIGHT - DIM);
    return Math.max(0, Math.min(LIGHTEST * steps, Math.round(share * LIGHTEST * steps)));
  };
}

/**
 * How light a face in view is.
 * @param isTurned the thing lies upside down: seen from below and drawn the other way up, it is lit from above still
 */
export function shadeOfFace({ axis, facets }: SeenFace, eye: Eye, isTurned = false): Shade {
  const [first] = facets ?? [];
  if (isTurned) {
    const normal = first?.normal ?? towards(axis, eye);
    return shadeAlong(turnedOver(normal, eye), eye, first?.curved);
  }
  return first === undefined ? shadeOf(axis, eye) : shadeAlong(first.normal, eye, first.curved);
}

/** How much of black (below 0) or of white a wood's ground is mixed with at each whole shade. */
const MIXED = [-0.24, -0.19, -0.13, -0.07, 0, 0.08, 0.24] as const;

function mixtureOf(shade: Shade): readonly [colour: string, share: number] {
  const below = Math.floor(shade);
  const [one, next] = [MIXED[below] ?? 0, MIXED[Math.ceil(shade)] ?? 0];
  const amount = one + (shade - below) * (next - one);
  return [amount > 0 ? '#ffffff' : '#000000', Math.abs(amount)];
}

/** The class of a shade. */
export const shadeClass = (shade: Shade): string => `kb-shade-${String(shade).replace('.', '-')}`;

/** Where a drawing is looked at: on light paper, on a dark board, or printed. */
export type Look = 'light' | 'dark' | 'print';

/** Printed, wood is a tint: what is drawn stays black on white. */
const TINT = 0.55;

/** The ground of a wood before any light falls on it, as `#rrggbb`. */
export function groundOf(wood: WoodTone, look: Look): string {
  const { light, dark } = WOOD_TONES[wood];
  if (look === 'print') return mixed(light, '#ffffff', TINT);
  return look === 'dark' ? dark : light;
}

/** The colour of a face, as `#rrggbb`. */
export function colourOf(wood: WoodTone, shade: Shade, look: Look): string {
  const [colour, share] = mixtureOf(shade);
  return mixed(groundOf(wood, look), colour, share);
}

/**
 * A face with a line around it in its own colour, as it is painted in pieces where something stands
 * before it: no seam of what lies behind shows between them.
 */
export const painted = (colour: string): string => `fill: ${colour}; stroke: ${colour};`;

/** The same mixing as CSS does it, for a page whose scheme may turn. */
export const SHADE_RULES = Array.from({ length: STEPS_OF_CURVES }, (_, step) => step / ON_CURVES)
  .map((shade) => {
    const [colour, share] = mixtureOf(shade);
    const percent = Math.round(share * 10_000) / 100;
    return `.${shadeClass(shade)} { ${painted(`color-mix(in srgb, var(--kb-wood), ${colour} ${percent}%)`)} }`;
  })
  .join('\n');

const WOODS = Object.keys(WOOD_TONES) as readonly WoodTone[];

/** The grounds of all woods: by the page's scheme, and as tints where a drawing is for print. */
export const WOOD_RULES = [
  ...WOODS.map(
    (wood) =>
      `.kb-wood-${wood} { --kb-wood: light-dark(${groundOf(wood, 'light')}, ${groundOf(wood, 'dark')}); }`,
  ),
  ...WOODS.map((wood) => `.kb-print .kb-wood-${wood} { --kb-wood: ${groundOf(wood, 'print')}; }`),
  `@media print { ${WOODS.map((wood) => `.kb-wood-${wood} { --kb-wood: ${groundOf(wood, 'print')}; }`).join(' ')} }`,
].join('\n');

function mixed(one: string, other: string, share: number): string {
  const [a, b] = [channels(one), channels(other)];
  return `#${a
    .map((value, i) => Math.round(value * (1 - share) + (b[i] ?? 0) * share))
    .map((value) => value.toString(16).padStart(2, '0'))
    .join('')}`;
}

function channels(hex: string): readonly number[] {
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
}
