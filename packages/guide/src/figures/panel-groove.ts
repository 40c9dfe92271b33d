import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs } from './named-cells.ts';
import type { Spot } from './picture.ts';
import { across, measureOf, nameOf, type Plate, plated, said } from './plate.ts';
import type { Stage } from './stage.ts';
import { line, ring, stroke, wood } from './strokes.ts';

const NAMES = ['stile_width', 'frame_thickness', 'groove_width', 'groove_depth', 'panel_thickness'];

/** A panel in the groove of its stile, cut across; units from the upper left, the front face up. */
interface Section {
  readonly wide: number;
  readonly high: number;
  readonly body: readonly string[];
  /** Where the edge of the stile, the edge of the panel and the floor of the groove are across. */
  readonly edge: number;
  readonly tip: number;
  readonly floor: number;
  /** How far down the groove begins and ends. */
  readonly groove: readonly [number, number];
  /** Across, where the thick part of the panel begins. */
  readonly thick: number;
}

/** Why there is none; undefined where the section can be drawn. */
export function panelLost(stage: Stage): string | undefined {
  const lost = missing(stage.source, NAMES);
  return lost.length === 0 ? undefined : needs('a panel in its groove', lost);
}

/** @param gap what is free between panel and floor of the groove, mm @param room units across */
export function panelSection(stage: Stage, gap: number, room: number): Section {
  const { source } = stage;
  const [stile = 0, frame = 0, width = 0, depth = 0, panel = 0] = NAMES.map((name) =>
    lengthOf(source, name),
  );
  const rabbet = panel > width ? (lengthOf(source, 'rabbet_width') ?? depth) : 0;
  const wall = lengthOf(source, 'groove_wall') ?? (frame - width) / 2;
  const shown = Math.min(stile, depth * 2.2);
  const beyond = Math.max(rabbet, depth) * 1.7;
  const scale = room / (shown + beyond);
  const u = (mm: number): number => mm * scale;
  const [edge, floor] = [u(shown), u(shown - depth)];
  const tip = floor + u(Math.max(0, gap));
  const [top, low] = [u(wall), u(wall + width)];
  const thick = tip + u(rabbet);
  const end = u(shown + beyond);
  const back = u(wall + Math.max(width, panel));
  const print = stage.options.print === true;
  const materialOf = (called: RegExp): string | undefined =>
    stage.plan.parts.parts.find(({ name }) => called.test(name))?.material;
  return {
    wide: end,
    high: Math.max(u(frame), back),
    edge,
    tip,
    floor,
    groove: [top, low],
    thick,
    body: [
      wood(
        materialOf(/stile/i),
        ring([
          [0, 0],
          [edge, 0],
          [edge, top],
          [floor, top],
          [floor, low],
          [edge, low],
          [edge, u(frame)],
          [0, u(frame)],
        ]),
        print,
        4,
      ),
      wood(
        materialOf(/panel/i),
        ring([
          [tip, top],
          [end, top],
          [end, back],
          [thick, back],
          [thick, low],
          [tip, low],
        ]),
        print,
        6,
      ),
    ],
  };
}

/** A panel in its groove, cut across, with what stays free today. */
export function grooveGapFigure(stage: Stage, step: BuiltStep): Figure | string {
  const lost = panelLost(stage);
  if (lost !== undefined) return lost;
  const { source } = stage;
  const gap = lengthOf(source, 'gap_today') ?? 0;
  const { wide, high, body, edge, tip, floor, groove, thick } = panelSection(stage, gap, 250);
  const rabbeted = thick > tip + 0.5;
  const y = high + 10;
  const plate: Plate = {
    wide,
    high: high + 14,
    body: [
      ...body,
      ...(gap > 0 ? [across(floor, tip, y, -(y - groove[1]))] : []),
      across(floor, edge, -8, groove[0] + 8),
      ...(rabbeted ? [stroke('kb-dimension', line([thick, high], [thick, y]))] : []),
    ],
    names: [
      { words: 'Stile', spots: [[floor * 0.5, high * 0.5]] },
      ...nameOf(stage, 'Groove, deep', 'groove_depth', [(floor + edge) / 2, -8]),
      ...(gap > 0 ? nameOf(stage, 'Gap today', 'gap_today', [(floor + tip) / 2, y]) : []),
      { words: 'Panel, front face up', spots: [[wide * 0.93, groove[0] + 3]] },
      ...(rabbeted
        ? nameOf(stage, 'Rabbet, wide', 'rabbet_width', [
            (edge + thick) / 2,
            Math.min(high - 2, groove[1] + 4),
          ])
        : []),
      { words: 'No glue', spots: [[floor + 1, (groove[0] + groove[1]) / 2] as Spot] },
    ],
  };
  return plated(stage, step, [plate], {
    says: `A panel in the groove of its stile, cut across. ${said(stage, gap)} of the groove stays free today.`,
    caption:
      'Cut across, the front face up. The panel is free in its groove and moves with the seasons.',
    drawn: ['groove_depth', 'gap_today', 'rabbet_width'].map((name) =>
      measureOf(stage, step, name),
    ),
  });
}
