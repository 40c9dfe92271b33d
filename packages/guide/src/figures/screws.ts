import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs, numberOf, wordsOf } from './named-cells.ts';
import { FIGURE, n, type Spot } from './picture.ts';
import { across, measureOf, nameOf, type Plate, plated, ROOM, said } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, ring, stroke, wood } from './strokes.ts';

/** A bar under a top, from below: where its screws stand, mm from its middle, and the slot of each; 0: a round hole. */
interface Bar {
  readonly name: string;
  readonly material: string | undefined;
  readonly length: number;
  readonly width: number;
  readonly screws: readonly { readonly at: number; readonly slot: number }[];
}

const HEADS = ['head_screws', 'head_screw_end', 'head_length', 'head_slot', 'head_under'];
const BEARERS = ['screws_across', 'screws_along', 'screw_out', 'bearer_length', 'slot_length'];
const TALL = 34;

/** The holes and slots of the screws that hold a top: from below, and one of them cut open. */
export function screwsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const isHeads = missing(source, HEADS).length === 0;
  if (!isHeads && missing(source, BEARERS).length > 0) {
    return needs('the screws under a top', missing(source, HEADS));
  }
  const bars = isHeads ? headBars(stage) : bearerBars(stage);
  const plates = bars.map((bar) => barPlate(stage, bar));
  const names = ['slot_length', 'head_slot', 'screw_out', 'head_screw_end', 'slot_under'];
  const drawn = [...names, 'head_under', 'head_screw_apart', 'screw_sink', 'top_screw'].map(
    (name) => measureOf(stage, step, name),
  );
  return plated(stage, step, [...plates, cutOpen(stage, isHeads)], {
    says: `${bars.map(({ name, screws }) => `${name} from below: ${screws.length} screws, ${screws.filter(({ slot }) => slot > 0).length} of them in slots`).join('. ')}. One screw cut open.`,
    caption:
      'From below. Slots run across the grain of the top, the way it moves; the round holes hold it.',
    drawn,
  });
}

function headBars(stage: Stage): readonly Bar[] {
  const { source } = stage;
  const own = (name: string): number => lengthOf(source, name) ?? 0;
  const count = numberOf(source, 'head_screws') ?? 1;
  const [length, end, slot] = [own('head_length'), own('head_screw_end'), own('head_slot')];
  const apart = count > 1 ? (length - 2 * end) / (count - 1) : 0;
  const screws = Array.from({ length: count }, (_, i) => ({
    at: (i - (count - 1) / 2) * apart,
    slot: i * 2 === count - 1 ? 0 : slot,
  }));
  const head = stage.plan.parts.parts.find(({ name }) => /head/i.test(name));
  const width = lengthOf(source, 'foot_thickness') ?? length / 10;
  return [{ name: head?.name ?? 'Head', material: head?.material, length, width, screws }];
}

function bearerBars(stage: Stage): readonly Bar[] {
  const { source } = stage;
  const own = (name: string): number => lengthOf(source, name) ?? 0;
  const [length, out, slot] = [own('bearer_length'), own('screw_out'), own('slot_length')];
  const width = lengthOf(source, 'bearer_width') ?? length / 12;
  const clear = Math.min(out, (lengthOf(source, 'column_size') ?? 0) / 2 + width);
  return (['screws_across', 'screws_along'] as const).map((name) => {
    const count = numberOf(source, name) ?? 0;
    const right = Math.ceil(count / 2);
    const side = (many: number, sign: number): readonly number[] =>
      Array.from(
        { length: many },
        (_, i) => sign * (out - (i * (out - clear)) / Math.max(1, many - 1)),
      );
    const isAcross = name === 'screws_across';
    const part = stage.plan.parts.parts.find((one) =>
      isAcross ? /bearer across/i.test(one.name) : /bearer along/i.test(one.name),
    );
    return {
      name: part?.name ?? (isAcross ? 'Bearer across' : 'Bearer along'),
      material: part?.material,
      length,
      width,
      screws: [...side(count - right, -1), ...side(right, 1)].map((at) => ({
        at,
        slot: isAcross ? slot : 0,
      })),
    };
  });
}

function barPlate(stage: Stage, { name, material, length, width, screws }: Bar): Plate {
  const { source } = stage;
  const scale = Math.min(ROOM / length, TALL / width);
  const [w, h] = [length * scale, width * scale];
  const x = (at: number): number => w / 2 + at * scale;
  const r = Math.max(2, Math.min(3.4, h / 5));
  const holes = screws.map(({ at, slot }) => {
    const half = slot === 0 ? 0 : Math.max(r * 1.4, (slot * scale) / 2 - r);
    return stroke(
      'kb-new',
      `M${n(x(at) - half)} ${n(h / 2 - r)}H${n(x(at) + half)}A${n(r)} ${n(r)} 0 0 1 ${n(x(at) + half)} ${n(h / 2 + r)}H${n(x(at) - half)}A${n(r)} ${n(r)} 0 0 1 ${n(x(at) - half)} ${n(h / 2 - r)}Z`,
    );
  });
  const sorted = [...screws].sort((a, b) => a.at - b.at);
  const [first, second] = sorted;
  const slotted = sorted.filter(({ slot }) => slot > 0);
  const round = sorted.filter(({ slot }) => slot === 0);
  const fromEnd = numberOf(source, 'head_screw_end') !== undefined;
  const y = h + 9;
  const last = sorted.at(-1);
  const body = [
    wood(material, box(0, 0, w, h), stage.options.print === true, 5),
    stroke('kb-center', line([0, h / 2], [w, h / 2])),
    ...holes,
    ...(first === undefined || last === undefined
      ? []
      : fromEnd
        ? [across(0, x(first.at), y, -9)]
        : [
            across(w / 2, x(last.at), y, -9),
            stroke('kb-center', line([w / 2, -4], [w / 2, h + 14])),
          ]),
    ...(fromEnd && first !== undefined && second !== undefined
      ? [across(x(first.at), x(second.at), y, -9)]
      : []),
  ];
  const middle = (from: number, to: number): Spot => [(from + to) / 2, y];
  return {
    wide: w,
    high: h + 12,
    body,
    names: [
      {
        words: `${name} × ${screws.length} screws`.replace(/ × (\d+) screws/, ', $1 screws'),
        spots: [[w * 0.97, h * 0.2]],
      },
      ...(slotted.length === 0
        ? []
        : nameOf(stage, 'Slot', fromEnd ? 'head_slot' : 'slot_length', [
            x((slotted.at(-1) ?? slotted[0])?.at ?? 0),
            h / 2 - r,
          ])),
      ...(round.length === 0
        ? []
        : [{ words: 'Round hole', spots: round.map(({ at }): Spot => [x(at), h / 2 - r]) }]),
      ...(first === undefined || last === undefined
        ? []
        : fromEnd
          ? nameOf(stage, 'To the end', 'head_screw_end', middle(0, x(first.at)))
          : nameOf(stage, 'From the middle', 'screw_out', middle(w / 2, x(last.at)))),
      ...(fromEnd && first !== undefined && second !== undefined
        ? nameOf(stage, 'Apart', 'head_screw_apart', middle(x(first.at), x(second.at)))
        : []),
    ],
  };
}

/** A screw through the bar into the top, which lies above. */
function cutOpen(stage: Stage, isHeads: boolean): Plate {
  const { source } = stage;
  const own = (name: string, otherwise: number): number => lengthOf(source, name) ?? otherwise;
  const high = own(isHeads ? 'head_height' : 'bearer_height', 50);
  const under = Math.min(high, own(isHeads ? 'head_under' : 'slot_under', high));
  const [top, screw] = [own('top_thickness', 25), own('top_screw', under + 12)];
  const part = stage.plan.parts.parts.find(({ name }) =>
    (isHeads ? /head/i : /bearer/i).test(name),
  );
  const panel = stage.plan.parts.parts.find(({ name }) => /top/i.test(name));
  const wide = Math.max(high, 60) * 1.7;
  const scale = Math.min((ROOM * 0.5) / wide, 120 / (high + top));
  const u = (mm: number): number => mm * scale;
  const [w, line0, middle] = [u(wide), u(top), u(wide) / 2];
  const hole = Math.max(2.5, u(4));
  const sink = Math.max(hole + 3, u(9));
  const ledge = line0 + u(under);
  const print = stage.options.print === true;
  const bar = (from: number, to: number, sign: 1 | -1): string =>
    ring([
      [from, line0],
      [to - sign * hole, line0],
      [to - sign * hole, ledge],
      [to - sign * sink, ledge],
      [to - sign * sink, line0 + u(high)],
      [from, line0 + u(high)],
    ]);
  const tip = ledge - u(screw);
  const body = [
    wood(panel?.material, box(0, 0, w, line0), print, 5),
    wood(part?.material, bar(0, middle, 1), print, 4),
    wood(part?.material, bar(w, middle, -1), print, 4),
    stroke('kb-hidden', `${line([middle - hole, line0], [middle - hole, ledge])}`),
    iron(
      ring([
        [middle - 1.6, ledge],
        [middle - 1.6, tip + 4],
        [middle, tip],
        [middle + 1.6, tip + 4],
        [middle + 1.6, ledge],
      ]),
    ),
    iron(box(middle - hole - 1.5, ledge, 2 * hole + 3, 3)),
  ];
  const sunk = high - under;
  return {
    wide: w,
    high: line0 + u(high),
    body,
    names: [
      { words: `${panel?.name ?? 'Top'} ${said(stage, top)}`, spots: [[w * 0.12, line0 * 0.5]] },
      {
        words: `Screw ${wordsOf(source, 'top_screw') ?? ''}`.trim(),
        spots: [[middle, (tip + line0) / 2]],
      },
      {
        words: `${said(stage, under)} of wood under its head`,
        spots: [[w * 0.86, line0 + u(under) * 0.5]],
      },
      ...(sunk * scale > FIGURE.text * 0.2
        ? [
            {
              words: `Wider hole ${said(stage, sunk)} deep`,
              spots: [[middle + sink * 0.6, ledge + u(sunk) * 0.7] as Spot],
            },
          ]
        : []),
    ],
  };
}
