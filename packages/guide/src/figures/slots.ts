import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { n, type Spot } from './picture.ts';
import { across, askedOf, type Plate, plated, STILL, said } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, ring, size, stroke, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

const LONG = ['slot_length', 'shelf_slot', 'slot_cut', 'top_slot'];
const UNDER = ['slot_under', 'shelf_under', 'screw_through_most'];
const TRAVEL = ['screw_travel', 'fastened_travel', 'swivel_swing'];

/** A screw as it is drawn, mm: its shaft and its head. */
const SCREW = { shaft: 4.5, head: 9, high: 3 };

/** A screw in its slot: cut open along the slot, and from below; in a round hole where nothing moves there. */
export function slotsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const slot = askedOf(stage, step, LONG);
  if (slot === undefined || !(slot.mm > 0)) {
    return `its figure shows a screw in its slot and needs one of these cells as a size of the step: ${LONG.join(', ')}. Write it under measure, or another word under figure.`;
  }
  const under = askedOf(stage, step, UNDER);
  const travel = askedOf(stage, step, TRAVEL);
  const isRound = travel !== undefined && travel.mm < STILL;
  const parts = stage.plan.parts.parts;
  // The slots of a shelf let the shelf move, all others the top.
  const moves = slot.name === 'shelf_slot' ? /^shelf$/i : /top|panel|seat/i;
  const top = parts.find(({ name }) => moves.test(name));
  const held = partOf(stage, step, /support|rail|apron|cleat/i);
  const print = stage.options.print === true;
  const through = under?.mm ?? 18;
  const sunk = Math.max(through * 0.6, 8);
  const shown = Math.max(slot.mm * 3, 60);
  const [upper, thick] = [16, through + sunk];
  const scale = Math.min(250 / shown, 80 / (upper + thick));
  const u = (mm: number): number => mm * scale;
  const middle = u(shown) / 2;
  const [half, head] = [u(Math.max(slot.mm, SCREW.shaft)) / 2, u(slot.mm + SCREW.head) / 2 + 1];
  const base = u(upper);
  const [floor, bottom] = [base + u(through), base + u(thick)];
  const side = (way: 1 | -1): string => {
    const at = (x: number): number => middle + way * x;
    return ring([
      [at(half), base],
      [at(u(shown) / 2), base],
      [at(u(shown) / 2), bottom],
      [at(head), bottom],
      [at(head), floor],
      [at(half), floor],
    ]);
  };
  const shaft = u(SCREW.shaft) / 2;
  const open: Plate = {
    wide: u(shown) + 12,
    high: bottom + 12,
    body: [
      wood(top?.material, box(0, 0, u(shown), base), print, 5),
      wood(held?.material, side(-1), print, 4),
      wood(held?.material, side(1), print, 4),
      iron(
        ring([
          [middle - shaft, u(4)],
          [middle, u(1.5)],
          [middle + shaft, u(4)],
          [middle + shaft, floor],
          [middle - shaft, floor],
        ]),
      ),
      iron(box(middle - u(SCREW.head) / 2, floor, u(SCREW.head), u(SCREW.high))),
      across(middle - half, middle + half, bottom + 8, -(bottom + 8 - floor)),
      under === undefined ? '' : size([u(shown) + 6, base], [u(shown) + 6, floor]),
    ],
    names: [
      {
        words: isRound ? 'Round hole' : `Slot ${slot.measure.words}`,
        spots: [[middle + half * 0.3, bottom + 8]],
      },
      ...(under === undefined
        ? []
        : [
            {
              words: `${said(stage, under.mm)} under the head`,
              spots: [[u(shown) + 6, (base + floor) / 2] as Spot],
            },
          ]),
      { words: top?.name ?? 'What moves', spots: [[u(shown) * 0.14, base * 0.5]] },
      { words: 'Screw in the middle', spots: [[middle, base * 0.7]] },
    ],
  };
  const words = isRound
    ? undefined
    : travel === undefined
      ? 'This way it moves'
      : `${travel.measure.words} each way`;
  return plated(
    stage,
    step,
    [open, fromBelow(stage, held?.material, u(slot.mm), shown, u, words)],
    {
      says: isRound
        ? 'A screw in a round hole, cut open.'
        : `A screw in the middle of its slot, cut open along the slot; ${slot.measure.words} from end to end.`,
      caption: isRound
        ? 'Above: cut open. Below: seen from below.'
        : 'Above: cut open along the slot. Below: seen from below, the screw in the middle.',
      drawn: [slot.measure, under?.measure, travel?.measure],
    },
  );
}

function fromBelow(
  stage: Stage,
  material: string | undefined,
  long: number,
  shown: number,
  u: (mm: number) => number,
  /** How far it moves; left out where it does not. */
  words: string | undefined,
): Plate {
  const [wide, high] = [u(shown), 34];
  const [x, y] = [wide / 2, high / 2];
  const r = Math.max(u(SCREW.shaft) / 2 + 1, 4);
  const half = Math.max(long / 2, r + 1);
  const slot = `M${n(x - half + r)} ${n(y - r)}H${n(x + half - r)}A${n(r)} ${n(r)} 0 0 1 ${n(x + half - r)} ${n(y + r)}H${n(x - half + r)}A${n(r)} ${n(r)} 0 0 1 ${n(x - half + r)} ${n(y - r)}Z`;
  const arm = Math.min(wide / 2 - half - 10, 44);
  return {
    wide,
    high,
    body: [
      wood(material, box(0, 0, wide, high), stage.options.print === true, 4),
      `<path class="kb-hole" fill="none" stroke="currentColor" stroke-width="1.4" d="${slot}"/>`,
      `<circle class="kb-iron" fill="currentColor" cx="${n(x)}" cy="${n(y)}" r="${n(r * 0.8)}"/>`,
      stroke('kb-center', line([x, 2], [x, high - 2])),
      ...(words === undefined
        ? []
        : [
            size([x + half + 5, y], [x + half + 5 + arm, y]),
            size([x - half - 5 - arm, y], [x - half - 5, y]),
          ]),
    ],
    names: words === undefined ? [] : [{ words, spots: [[x + half + 5 + arm / 2, y]] }],
  };
}
