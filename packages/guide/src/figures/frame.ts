import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs } from './named-cells.ts';
import type { Spot } from './picture.ts';
import { across, measureOf, plated, ROOM, said, upright } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, line, stroke, wood } from './strokes.ts';

const NAMES = ['clear_long', 'clear_short'];

/** Legs and what goes between them, from above: what is clear between the legs, and the diagonals that tell. */
export function dryFitFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const lost = missing(source, NAMES);
  if (lost.length > 0) return needs('the base from above', lost);
  const [long = 0, short = 0] = NAMES.map((name) => lengthOf(source, name));
  const leg = lengthOf(source, 'leg_size') ?? Math.min(long, short) / 8;
  const thick = Math.min(lengthOf(source, 'apron_thickness') ?? leg / 2, leg);
  const setback = Math.min(lengthOf(source, 'apron_setback') ?? 0, leg - thick);
  const [wide, high] = [long + 2 * leg, short + 2 * leg];
  const scale = Math.min((ROOM - 40) / wide, 140 / high);
  const u = (mm: number): number => mm * scale;
  const print = stage.options.print === true;
  const material = stage.plan.parts.parts.find(({ name }) =>
    /apron|rail|leg/i.test(name),
  )?.material;
  const strips = [
    box(u(leg), u(setback), u(long), u(thick)),
    box(u(leg), u(high - setback - thick), u(long), u(thick)),
    box(u(setback), u(leg), u(thick), u(short)),
    box(u(wide - setback - thick), u(leg), u(thick), u(short)),
  ];
  const legs = [0, wide - leg].flatMap((x) =>
    [0, high - leg].map((y) => box(u(x), u(y), u(leg), u(leg))),
  );
  const corners: readonly [Spot, Spot, Spot, Spot] = [
    [u(leg), u(leg)],
    [u(wide - leg), u(leg)],
    [u(leg), u(high - leg)],
    [u(wide - leg), u(high - leg)],
  ];
  const diagonal = said(stage, Math.hypot(long, short));
  const [y, x] = [u(leg + short * 0.78), u(leg + long * 0.86)];
  const says = `Both diagonals, from inner corner to inner corner of the legs: ${diagonal}`;
  return plated(
    stage,
    step,
    [
      {
        wide: u(wide),
        high: u(high),
        body: [
          ...strips.map((d) => wood(material, d, print, 4)),
          ...legs.map((d) => wood(material, d, print, 3)),
          stroke('kb-center', `${line(corners[0], corners[3])}${line(corners[1], corners[2])}`),
          across(u(leg), u(leg + long), y, 0),
          upright(u(leg), u(leg + short), x, 0),
        ],
        names: [
          { words: `Clear ${said(stage, long)}`, spots: [[u(leg + long * 0.3), y]] },
          { words: `Clear ${said(stage, short)}`, spots: [[x, u(leg + short * 0.3)]] },
          {
            words: `Diagonal ${diagonal}`,
            spots: [[u(leg + long * 0.25), u(leg + short * 0.25)]],
          },
        ],
      },
    ],
    {
      says: `The base from above, without its top: ${said(stage, long)} clear between the legs along it, ${said(stage, short)} across it. ${says}.`,
      caption: 'From above, without the top. Diagonals that are alike say it is square.',
      drawn: NAMES.map((name) => measureOf(stage, step, name)),
    },
  );
}
