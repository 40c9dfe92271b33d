import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs } from './named-cells.ts';
import { measureOf, nameOf, type Plate, plated, said, upright } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, iron, stroke, wood } from './strokes.ts';

const NAMES = ['rod_length', 'column_length', 'foot_height', 'bearer_height', 'column_size'];
const TALL = 240;

/** A rod that draws feet, column and bearers together, cut open through its middle. */
export function rodFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const lost = missing(source, NAMES);
  if (lost.length > 0) return needs('a rod through the column', lost);
  const [rod = 0, column = 0, foot = 0, bearer = 0, wide = 0] = NAMES.map((name) =>
    lengthOf(source, name),
  );
  const scale = Math.min(TALL / rod, 70 / wide);
  const u = (mm: number): number => mm * scale;
  const [w, mid] = [u(wide) + 80, (u(wide) + 80) / 2];
  const print = stage.options.print === true;
  const materialOf = (called: RegExp): string | undefined =>
    stage.plan.parts.parts.find(({ name }) => called.test(name))?.material;
  const [low, high] = [u(bearer), u(bearer + column)];
  const end = u(rod);
  /** A recess holds a nut and its washer, as large as the least of the bars lets it be. */
  const sink = Math.min(u(Math.min(foot, bearer)) * 0.4, 16);
  const nut = (y: number, washer: number): readonly string[] => [
    iron(box(mid - 6, y, 12, sink * 0.45)),
    iron(box(mid - 8, washer, 16, 2)),
  ];
  const recess = (y: number): string => stroke('kb-new', box(mid - 10, y, 20, sink));
  const plate: Plate = {
    wide: w + 30,
    high: end,
    body: [
      wood(materialOf(/bearer/i), box(0, 0, w, low), print, 5),
      wood(materialOf(/column/i), box(mid - u(wide) / 2, low, u(wide), high - low), print, 4),
      wood(materialOf(/foot/i), box(0, high, w, u(foot)), print, 5),
      stroke('kb-hidden', box(mid - 4, sink, 8, end - 2 * sink)),
      recess(0),
      recess(end - sink),
      iron(box(mid - 2, sink * 0.25, 4, end - sink * 0.5)),
      ...nut(sink * 0.4, sink - 2),
      ...nut(end - sink * 0.85, end - sink),
      upright(0, end, w + 22, -20),
    ],
    names: [
      { words: `Bearers ${said(stage, bearer)}`, spots: [[w * 0.12, low / 2]] },
      { words: `Column ${said(stage, column)}`, spots: [[mid - u(wide) * 0.3, (low + high) / 2]] },
      { words: `Feet ${said(stage, foot)}`, spots: [[w * 0.12, high + u(foot) / 2]] },
      ...nameOf(stage, 'Outside to outside', 'rod_length', [w + 22, end * 0.42]),
      { words: 'Recess for nut and washer', spots: [[mid + 9, sink * 0.6]] },
      { words: 'Bored from both ends', spots: [[mid + 3, (low + high) * 0.55]] },
    ],
  };
  return plated(stage, step, [plate], {
    says: `Feet, column and bearers cut open through the middle: a rod runs through all of them, with a nut and a washer in a recess at each end; ${said(stage, rod)} from outside to outside.`,
    caption: 'Cut open through the middle. The rod is shorter by what the recesses take.',
    drawn: NAMES.map((name) => measureOf(stage, step, name)),
  });
}
