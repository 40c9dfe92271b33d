import { type Part, shoulderLength } from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import type { Measure } from '../steps/read-steps.ts';
import type { Figure } from './figure.ts';
import { milledIn } from './milling.ts';
import { partCounted, unitOf, writer } from './part-lines.ts';
import type { Spot } from './picture.ts';
import { across, measureAs, type Plate, plated, ROOM, said, upright } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, line, stroke, wood } from './strokes.ts';

/** More parts than these are told in lines. */
const MOST = 4;
/** So many parts of the same sizes have a name at the one that is drawn; there is no room for more, and lines tell them. */
const MOST_ALIKE = 3;
/** All of them one beneath the other take no more than this, units; what stands between them comes on top. */
const MOST_HIGH = 240;
/** What is narrower on the paper than this is drawn wider than it is, units. */
const LEAST_HIGH = 9;

/** Parts lying flat to one scale, each with its sizes; of tenoned ones between the shoulders too. */
export function partSizesFigure(stage: Stage, step: BuiltStep): Figure | string {
  const parts = milledIn(stage, step);
  if (parts.length === 0) {
    return 'its figure shows parts with their sizes, and the parts table has none of them. Write their names behind it, such as sizes: Long apron, Short apron.';
  }
  const alike = alikeOf(parts);
  const shown = alike.slice(0, MOST);
  const longest = Math.max(...shown.map(([{ length }]) => length));
  const widest = ([{ thickness, width }]: Alike): number => Math.max(thickness, width);
  const scale = Math.min(
    (ROOM - 60) / longest,
    MOST_HIGH / shown.reduce((all, same) => all + widest(same), 0),
  );
  const taken: Measure[] = [];
  const plates = shown.map((same): Plate => {
    const [part] = same;
    const [thick, wide] = [
      Math.min(part.thickness, part.width),
      Math.max(part.thickness, part.width),
    ];
    for (const mm of [part.length, wide, thick]) {
      const own = measureAs(stage, step, mm, taken);
      if (own !== undefined) taken.push(own);
    }
    const shoulders = shoulderLength(part);
    const long = part.length * scale;
    const high = Math.max(LEAST_HIGH, wide * scale);
    const tenon = shoulders === undefined ? 0 : ((part.length - shoulders) / 2) * scale;
    const y = 2;
    const below = y + high + 9;
    const body = [
      wood(part.material, box(0, y, long, high), stage.options.print === true, 5),
      tenon > 0
        ? stroke(
            'kb-hidden',
            `${line([tenon, y], [tenon, y + high])}${line([long - tenon, y], [long - tenon, y + high])}`,
          )
        : '',
      across(0, long, below, -7),
      upright(y, y + high, long + 9, -7),
    ];
    return {
      wide: long + 16,
      high: below + 4,
      body,
      names: [
        ...same.slice(0, MOST_ALIKE).map((one, i) => ({
          words: partCounted(one),
          spots: [[long * (0.2 + 0.1 * i), y + high * 0.5] as Spot],
        })),
        { words: `${said(stage, part.length)} long`, spots: [[long * 0.45, below]] },
        {
          words: `${said(stage, wide)} wide, ${said(stage, thick)} thick`,
          spots: [[long + 9, y + high * 0.5]],
        },
      ],
    };
  });
  const lines = [
    ...shown.flatMap((same) => {
      const shoulders = shoulderLength(same[0]);
      return shoulders === undefined
        ? []
        : [
            `${same.map(({ name }) => name).join(', ')}: ${said(stage, shoulders)} between the shoulders`,
          ];
    }),
    ...shown.flatMap((same) => {
      const [next, ...others] = same.slice(MOST_ALIKE);
      return next === undefined ? [] : [lineOf(stage, [next, ...others])];
    }),
    ...alike.slice(MOST).map((same) => lineOf(stage, same)),
  ];
  const oneScale = shown.every((same) => widest(same) * scale >= LEAST_HIGH);
  const scaleSays = oneScale ? 'To one scale.' : 'Lengths to one scale.';
  const tenoned = shown.some(([part]) => shoulderLength(part) !== undefined);
  return plated(stage, step, plates, {
    says: `Parts with their sizes. ${shown.map((same) => `${lineOf(stage, same)}.`).join(' ')}`,
    caption: tenoned ? `${scaleSays} The dashed lines are the shoulders of the tenons.` : scaleSays,
    lines,
    drawn: taken,
  });
}

type Alike = readonly [Part, ...Part[]];

/** Parts by their sizes, what is cut alike together. */
function alikeOf(parts: readonly Part[]): readonly Alike[] {
  const found = new Map<string, [Part, ...Part[]]>();
  for (const part of parts) {
    const { length, width, thickness } = part;
    const key = JSON.stringify(
      [length, width, thickness, shoulderLength(part) ?? 0].map((mm) => Math.round(mm * 100)),
    );
    const own = found.get(key);
    if (own === undefined) found.set(key, [part]);
    else own.push(part);
  }
  return [...found.values()];
}

const namesOf = (same: Alike): string => same.map(partCounted).join(', ');

/** `Long apron × 2: 3/4 × 4 1/2 × 66 in` */
function lineOf({ format, source }: Stage, same: Alike): string {
  const [{ thickness, width, length }] = same;
  const sizes = [thickness, width, length].map(writer(format)).join(' × ');
  return `${namesOf(same)}: ${sizes} ${unitOf(source)}`;
}
