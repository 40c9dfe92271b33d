import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, wordsOf } from './named-cells.ts';
import { n } from './picture.ts';
import { measureOf, type Plate, plated, ROOM, said } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, ring, size, stroke, wood } from './strokes.ts';

/** Half of the room for each of two drawings side by side, and where the second begins. */
const HALF = (ROOM - 24) / 2;
const SECOND = HALF + 24;

/** What to look for at the yard: the four ways in which boards are not flat, or where a sheet is measured. */
export function boardsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  if (source.named('sheet_thickness') !== undefined) return sheetFigure(stage, step);
  const [rough, planed] = ['rough_thickness', 'planed_thickness'].map((name) =>
    lengthOf(source, name),
  );
  const spare = (rough ?? 0) - (planed ?? 0);
  const planes = spare > 0 ? `less than ${said(stage, spare)} planes out` : 'it costs thickness';
  const material = stage.plan.parts.parts[0]?.material;
  const print = stage.options.print === true;
  const bent = (x: number, y: number, high: number, rise: number): string =>
    `M${n(x)} ${n(y + rise)}Q${n(x + HALF / 2)} ${n(y - rise)} ${n(x + HALF)} ${n(y + rise)}V${n(y + rise + high)}Q${n(x + HALF / 2)} ${n(y - rise + high)} ${n(x)} ${n(y + rise + high)}Z`;
  const flat = (x: number, y: number): string => stroke('kb-center', line([x, y], [x + HALF, y]));
  const above: Plate = {
    wide: ROOM,
    high: 40,
    body: [
      wood(material, bent(0, 8, 22, 7), print, 5),
      flat(0, 37),
      wood(material, bent(SECOND, 8, 7, 9), print, 5),
      flat(SECOND, 24),
    ],
    names: [
      { words: `Cup: ${planes}`, spots: [[HALF * 0.5, 26]] },
      { words: 'Bow: cut short parts from it', spots: [[SECOND + HALF * 0.5, 10]] },
    ],
  };
  const [x, y, w, h] = [HALF * 0.2, 12, HALF * 0.6, 18];
  const turn = 0.16;
  const end = (sign: number): string =>
    ring(
      (
        [
          [-w / 2, -h / 2],
          [w / 2, -h / 2],
          [w / 2, h / 2],
          [-w / 2, h / 2],
        ] as const
      ).map(([dx, dy]) => [
        x + w / 2 + dx * Math.cos(turn) - sign * dy * Math.sin(turn),
        y + h / 2 + sign * dx * Math.sin(turn) + dy * Math.cos(turn),
      ]),
    );
  const below: Plate = {
    wide: ROOM,
    high: 44,
    body: [
      stroke('kb-hidden', end(-1)),
      wood(material, end(1), print, 5),
      wood(material, bent(SECOND, 8, 22, 5), print, 5),
      flat(SECOND, 35),
    ],
    names: [
      { words: 'Twist: leave it', spots: [[x + w / 2, y + h / 2]] },
      { words: 'Crook: rip it straight', spots: [[SECOND + HALF * 0.5, 18]] },
    ],
  };
  return plated(stage, step, [above, below], {
    says: `Four boards that are not flat. Cup, hollow across: ${planes}. Bow, bent along its face: cut short parts from it. Twist, its ends turned against each other: leave it. Crook, bent along its edge: rip it straight.`,
    caption:
      'Cup and twist from the end, bow from the edge, crook from above; drawn larger than one would buy. The dashed line is straight.',
  });
}

/** A sheet, and where its thickness is taken. */
function sheetFigure(stage: Stage, step: BuiltStep): Figure {
  const { source } = stage;
  const [long = 2440, wide = 1220] = ['sheet_length', 'sheet_width'].map((name) =>
    lengthOf(source, name),
  );
  const scale = Math.min((ROOM - 20) / long, 120 / wide);
  const [w, h] = [long * scale, wide * scale];
  const material = stage.plan.parts.parts[0]?.material;
  const jaw = (x: number, y: number): string =>
    `${iron(box(x - 4, y - 7, 8, 5))}${iron(box(x - 4, y + 2, 8, 5))}`;
  const sheet: Plate = {
    wide: w,
    high: h,
    body: [
      wood(material, box(0, 0, w, h), stage.options.print === true, 5),
      jaw(w * 0.2, 0),
      jaw(w * 0.7, 0),
      jaw(w * 0.2, h),
      jaw(w * 0.7, h),
      size([w * 0.1, h * 0.5], [w * 0.9, h * 0.5]),
    ],
    names: [
      { words: 'Measure here, and at the other marks', spots: [[w * 0.2, 0]] },
      { words: 'Grain of the face', spots: [[w * 0.8, h * 0.5]] },
    ],
  };
  const [sold, has] = ['sheet_nominal', 'sheet_thickness'].map((name) => wordsOf(source, name));
  return plated(stage, step, [sheet], {
    says: `A sheet with the places where its thickness is measured: sold as ${sold ?? '…'}, this plan has ${has ?? '…'}.`,
    caption:
      'A little in from the edges, which are often thicker or torn. The least of all is what counts.',
    drawn: [measureOf(stage, step, 'none')],
  });
}
