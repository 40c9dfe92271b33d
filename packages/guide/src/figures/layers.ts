import type { BuiltStep } from '../steps/built.ts';
import { saidMm } from '../text/as-said.ts';
import type { Figure } from './figure.ts';
import { measureOf, type Plate, plated, said, upright } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, iron, rings, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

const MM_PER_INCH = 25.4;
/** The finest that a layer is said to, of an inch. */
const FINEST = 32;

/** How thick a layer is; about so, where layers that thick would come to another thickness than is wanted. */
function eachSaid(stage: Stage, thickness: number, layers: number): string {
  const each = thickness / layers;
  const inch = MM_PER_INCH / FINEST;
  const addsUp =
    stage.source.units === 'us'
      ? Math.abs(Math.round(each / inch) * inch - each) < 1e-6
      : saidMm(each) * layers === saidMm(thickness);
  return `${addsUp ? '' : 'about '}${said(stage, each)}`;
}

/** Layers glued face to face into one part: its end, and where the clamps stand. */
export function layersFigure(stage: Stage, step: BuiltStep): Figure | string {
  const part = partOf(stage, step, /./, ({ layers }) => (layers ?? 1) > 1);
  const count = part?.layers ?? 1;
  if (part === undefined || count < 2) {
    return 'its figure shows layers that are glued into one part, and no part has any at this size. Fill in layers in the parts table, or write another word under figure.';
  }
  const scale = Math.min(150 / part.width, 96 / part.thickness);
  const [w, h] = [part.width * scale, part.thickness * scale];
  const each = h / count;
  const [x, y] = [26, 20];
  const print = stage.options.print === true;
  const clamps = [x + w * 0.12, x + w * 0.88].flatMap((at) => [
    iron(box(at - 5, y - 7, 10, 7)),
    iron(box(at - 5, y + h, 10, 7)),
  ]);
  const bars = [x - 16, x + w + 11].flatMap((at, i) => [
    iron(box(at, y - 12, 5, h + 24)),
    iron(
      i === 0
        ? box(at, y - 12, x + w * 0.12 - at + 5, 5)
        : box(x + w * 0.88 - 5, y - 12, at + 5 - (x + w * 0.88 - 5), 5),
    ),
    iron(
      i === 0
        ? box(at, y + h + 7, x + w * 0.12 - at + 5, 5)
        : box(x + w * 0.88 - 5, y + h + 7, at + 5 - (x + w * 0.88 - 5), 5),
    ),
  ]);
  const plate: Plate = {
    wide: w + 2 * x,
    high: h + 2 * y,
    body: [
      ...Array.from({ length: count }, (_, i) =>
        [
          wood(part.material, box(x, y + i * each, w, each), print, 5),
          rings(x, y + i * each, w, each, i % 2 === 0),
        ].join(''),
      ),
      ...clamps,
      ...bars,
      upright(y, y + h, x + w * 0.3, 0),
    ],
    names: [
      {
        words: `Each layer ${eachSaid(stage, part.thickness, count)}`,
        spots: [[x + w * 0.68, y + each * 0.4]],
      },
      {
        words: `${part.name} ${said(stage, part.thickness)}`,
        spots: [[x + w * 0.3, y + h * 0.72]],
      },
      { words: 'Glue', spots: [[x + w * 0.55, y + each]] },
      { words: 'A clamp on each side', spots: [[x + w + 13, y + h * 0.55]] },
    ],
  };
  const all = stage.plan.parts.parts.filter(({ layers }) => (layers ?? 1) > 1);
  const lines = all.map(
    ({ name, layers = 1, thickness }) =>
      `${name}: ${layers} layers, ${said(stage, thickness)} together`,
  );
  return plated(stage, step, [plate], {
    says: `The end of ${part.name}: ${count} layers glued face to face, growth rings bowed up and down by turns, a clamp on each side.`,
    caption: 'The end of a part in its clamps. Growth rings bow away from each other by turns.',
    lines,
    drawn: ['foot_thickness', 'foot_layer', 'post_layer'].map((name) =>
      measureOf(stage, step, name),
    ),
  });
}
