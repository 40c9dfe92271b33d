import { colourOf, shadeClass, woodTone } from '@kerfbook/drawing';
import { n, type Spot } from './picture.ts';

/** Shapes of sections and plans; all in units, x to the right, y down. */

/** The look of lines: what is sawn or stands there, what lies behind, a middle line, a size. */
export type Kind = 'kb-new' | 'kb-quiet' | 'kb-hidden' | 'kb-center' | 'kb-dimension' | 'kb-rings';

/** Lines of one kind. */
export const stroke = (kind: Kind, d: string): string =>
  d === ''
    ? ''
    : `<path class="${kind}" fill="none" stroke="currentColor" vector-effect="non-scaling-stroke" d="${d}"/>`;

/** The way round some corners. */
export const ring = (corners: readonly Spot[]): string =>
  `M${corners.map(([x, y]) => `${n(x)} ${n(y)}`).join('L')}Z`;

/** The way round a rectangle. */
export const box = (x: number, y: number, wide: number, high: number): string =>
  ring([
    [x, y],
    [x + wide, y],
    [x + wide, y + high],
    [x, y + high],
  ]);

/** One straight line. */
export const line = ([x1, y1]: Spot, [x2, y2]: Spot): string =>
  `M${n(x1)} ${n(y1)}L${n(x2)} ${n(y2)}`;

/** A cut or a face of wood in its tone, with a line around it. */
export function wood(material: string | undefined, d: string, print: boolean, shade = 4): string {
  const tone = woodTone(material);
  const colour = colourOf(tone, shade, print ? 'print' : 'light');
  return `<g class="kb-wood-${tone}"><path class="kb-face ${shadeClass(shade)}" fill="${colour}" d="${d}"/>${stroke('kb-new', d)}</g>`;
}

/** Iron: solid. */
export const iron = (d: string): string => `<path class="kb-iron" fill="currentColor" d="${d}"/>`;

const HEAD = 5;

/** A line with a head at each end; one that is too short for heads has them outside, pointing in. */
export function size(from: Spot, to: Spot): string {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (long < 1e-6) return '';
  const [ux, uy] = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  const isInside = long > 3 * HEAD;
  const sign = isInside ? 1 : -1;
  const reach = isInside ? 0 : 2 * HEAD;
  const start: Spot = [from[0] - ux * reach, from[1] - uy * reach];
  const end: Spot = [to[0] + ux * reach, to[1] + uy * reach];
  const head = ([x, y]: Spot, way: number): string =>
    ring([
      [x, y],
      [x + way * ux * HEAD - uy, y + way * uy * HEAD + ux],
      [x + way * ux * HEAD + uy, y + way * uy * HEAD - ux],
    ]);
  return [
    stroke('kb-dimension', line(start, end)),
    `<path class="kb-arrow" fill="currentColor" d="${head(from, sign)}${head(to, -sign)}"/>`,
  ].join('');
}

/** Growth rings of a quartersawn board's end: they stand upright. */
export function uprightRings(x: number, y: number, wide: number, high: number): string {
  const every = Math.max(high / 3.2, 2.2);
  const count = Math.max(1, Math.floor(wide / every) - 1);
  let d = '';
  for (let i = 1; i <= count; i += 1) {
    const across = x + (wide * i) / (count + 1);
    d += line([across, y + 0.3], [across, y + high - 0.3]);
  }
  return stroke('kb-rings', d);
}

/** Growth rings of a board's end, as far as they lie in it; a bark side up bows up. */
export function rings(x: number, y: number, wide: number, high: number, barkUp: boolean): string {
  const steps = 12;
  const away = Math.max(wide * 0.35, high * 0.9);
  const centre: Spot = [x + wide / 2, barkUp ? y + high + away * 0.5 : y - away * 0.5];
  const most = Math.hypot(wide / 2, high + away * 0.5);
  const every = Math.max(high / 3.2, 2.2);
  let d = '';
  for (let radius = away * 0.5 + every / 2; radius < most; radius += every) {
    let down = false;
    for (let i = 0; i <= steps * 2; i += 1) {
      const across = x + (wide * i) / (steps * 2);
      const up = radius ** 2 - (across - centre[0]) ** 2;
      const at = centre[1] + (barkUp ? -1 : 1) * Math.sqrt(Math.max(0, up));
      const inside = up > 0 && at > y + 0.3 && at < y + high - 0.3;
      if (inside) d += `${down ? 'L' : 'M'}${n(across)} ${n(at)}`;
      down = inside;
    }
  }
  return stroke('kb-rings', d);
}
