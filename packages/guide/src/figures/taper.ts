import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs } from './named-cells.ts';
import { across, measureOf, nameOf, plated, ROOM, upright } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, ring, stroke, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

const NAMES = ['leg_size', 'leg_foot', 'taper_length'];

/** A leg lying on its side with what is sawn off it, and its foot from below. */
export function taperFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const leg = partOf(stage, step, /leg/i);
  const lost = missing(source, NAMES);
  if (leg === undefined || lost.length > 0)
    return needs('the taper of a leg', lost.length > 0 ? lost : NAMES);
  const [thick = 0, foot = 0, taper = 0] = NAMES.map((name) => lengthOf(source, name));
  const value = source.named('leg_shape')?.value;
  const both = value?.kind === 'text' && /four/i.test(value.text);
  const scale = Math.min((ROOM - 30) / leg.length, 60 / thick);
  const [long, high, end] = [leg.length * scale, thick * scale, foot * scale];
  const from = long - taper * scale;
  const [up, down] = both ? [(high - end) / 2, (high - end) / 2] : [0, high - end];
  const print = stage.options.print === true;
  const y = 4;
  const footSize = 60;
  const [whole, small] = [footSize, (footSize * foot) / thick];
  const at = both ? (whole - small) / 2 : 0;
  return plated(
    stage,
    step,
    [
      {
        wide: long + 16,
        high: high + y + 18,
        body: [
          stroke('kb-hidden', box(0, y, long, high)),
          wood(
            leg.material,
            ring([
              [0, y],
              [from, y],
              [long, y + up],
              [long, y + high - down],
              [from, y + high],
              [0, y + high],
            ]),
            print,
            5,
          ),
          across(from, long, y + high + 10, -8),
          across(0, from, y + high + 10, -8),
          upright(y + up, y + high - down, long + 10, -8),
        ],
        names: [
          ...nameOf(stage, 'Top end to taper', 'taper_from', [from / 2, y + high + 10]),
          ...nameOf(stage, 'Taper', 'taper_length', [(from + long) / 2, y + high + 10]),
          ...nameOf(stage, 'Foot', 'leg_foot', [long + 10, y + high / 2]),
          ...nameOf(stage, 'Each face', 'taper_angle', [(from + long) / 2, y + high - down / 2]),
        ],
      },
      {
        wide: whole,
        high: whole,
        body: [
          stroke('kb-hidden', box(0, 0, whole, whole)),
          wood(leg.material, box(at, at, small, small), print, 3),
        ],
        names: [
          ...nameOf(stage, 'Leg', 'leg_size', [whole * 0.9, whole]),
          {
            words: both ? 'Tapered on four faces' : 'Outer faces stay straight',
            spots: [both ? [at, whole / 2] : [0, whole * 0.3]],
          },
        ],
      },
    ],
    {
      says: `A leg lying down, its top end at the left; the dashed line is what is sawn off. ${both ? 'All four faces are tapered.' : 'Its two inner faces are tapered, the outer ones stay straight.'}`,
      caption: 'Above: the leg lying down, its top end at the left. Below: its foot from below.',
      drawn: ['taper_from', 'taper_length', 'leg_foot', 'taper_angle'].map((name) =>
        measureOf(stage, step, name),
      ),
    },
  );
}
