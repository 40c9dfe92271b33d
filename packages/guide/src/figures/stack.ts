import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { needs, numberOf, wordsOf } from './named-cells.ts';
import type { Spot } from './picture.ts';
import { measureOf, type Plate, plated, ROOM } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, stroke, wood } from './strokes.ts';

const LAYERS = 4;
const MARKS = [
  ['moisture_dry', 'Dry season'],
  ['moisture_build', 'When built'],
  ['moisture_humid', 'Humid season'],
] as const;

/** Boards on stickers, and the moisture that they are to come to, between what the seasons make of it. */
export function stackFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const known = MARKS.flatMap(([name, says]) => {
    const value = numberOf(source, name);
    const words = wordsOf(source, name);
    return value === undefined || words === undefined ? [] : [{ name, says, value, words }];
  });
  const now = known.find(({ name }) => name === 'moisture_build');
  if (now === undefined) return needs('what moisture boards are to come to', ['moisture_build']);
  const isPiled =
    measureOf(stage, step, 'moisture_build') !== undefined ||
    known.every(({ name }) => measureOf(stage, step, name) === undefined);
  const plates = [
    ...(isPiled ? [pile(stage, known.length > 1 ? '' : `, ${now.words}`)] : []),
    ...(known.length > 1 ? [scale(known)] : []),
  ];
  return plated(stage, step, plates, {
    says: `${isPiled ? 'Boards in a stack, stickers between them one over the other, with air on all sides. ' : ''}${known.map(({ says, words }) => `${says}: ${words}.`).join(' ')}`,
    caption:
      known.length > 1
        ? 'Boards are ready when they read within the shaded part, and read the same some days later.'
        : 'Boards are ready when they read the same some days later.',
    drawn: known.map(({ name }) => measureOf(stage, step, name)),
  });
}

function pile(stage: Stage, reading: string): Plate {
  const print = stage.options.print === true;
  const material = stage.plan.parts.parts[0]?.material;
  const [wide, high, thick, sticker] = [ROOM * 0.86, 78, 11, 6];
  const at = [0.06, 0.28, 0.5, 0.72, 0.94].map((share) => share * wide);
  const body: string[] = [];
  let y = 4;
  const tops: number[] = [];
  for (let layer = 0; layer < LAYERS; layer += 1) {
    tops.push(y);
    const short = layer === 0 ? wide * 0.07 : 0;
    body.push(wood(material, box(short / 2, y, wide - short, thick), print, 5));
    y += thick;
    const last = layer === LAYERS - 1;
    for (const x of at) {
      body.push(stroke('kb-new', box(x - 4, y, 8, last ? sticker * 1.4 : sticker)));
    }
    y += last ? sticker * 1.4 : sticker;
  }
  body.push(stroke('kb-quiet', line([-8, y], [wide + 8, y])));
  const middle: Spot = [wide * 0.39, tops[0] ?? 0];
  body.push(
    iron(box(middle[0] - 3, middle[1] - 1, 1.4, 5)),
    iron(box(middle[0] + 2, middle[1] - 1, 1.4, 5)),
  );
  return {
    wide,
    high: Math.max(high, y + 2),
    body,
    names: [
      { words: `Measure away from the ends${reading}`, spots: [middle] },
      { words: 'Stickers one over the other', spots: [[at[3] ?? 0, y - 3]] },
    ],
  };
}

interface Mark {
  readonly name: (typeof MARKS)[number][0];
  readonly says: string;
  readonly value: number;
  readonly words: string;
}

/** What is shaded is what the seasons make of the wood: boards that were measured outside of it are not ready. */
function scale(marks: readonly Mark[]): Plate {
  const values = marks.map(({ value }) => value);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const pad = Math.max(1, (most - least) * 0.35);
  const wide = ROOM * 0.8;
  const at = (value: number): number => ((value - least + pad) / (most - least + 2 * pad)) * wide;
  const [y, high] = [8, 10];
  const seasons = marks.filter(({ name }) => name !== 'moisture_build');
  const [dry, humid] = (seasons.length === 2 ? seasons : marks).map(({ value }) => at(value));
  const [from, to] = [Math.min(dry ?? 0, humid ?? 0), Math.max(dry ?? 0, humid ?? 0)];
  const body = [
    stroke('kb-new', box(0, y, wide, high)),
    to > from
      ? `<path class="kb-band" fill="currentColor" fill-opacity="0.18" d="${box(from, y, to - from, high)}"/>`
      : '',
    ...marks.map(({ value }) =>
      stroke('kb-new', line([at(value), y - 4], [at(value), y + high + 4])),
    ),
  ];
  return {
    wide,
    high: 2 * y + high,
    body,
    names: marks.map(({ says, value, words }) => ({
      words: `${says} ${words}`,
      spots: [[at(value), y + high / 2]],
    })),
  };
}
