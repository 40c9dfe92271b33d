import { mmFromOwn } from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs, numberOf } from './named-cells.ts';
import { measureLines } from './part-lines.ts';
import { Picture, type Spot } from './picture.ts';
import { measureOf, said } from './plate.ts';
import { sideNames } from './side-names.ts';
import type { Stage } from './stage.ts';
import { box, iron, wood } from './strokes.ts';

const NAMES = ['hinge_count', 'hinge_end', 'door_height', 'frame_thickness'];
const TALL = 230;
/** A leaf as it is drawn, mm: 2 1/2 in, as butt hinges of doors of this kind often are. Value from memory. */
const LEAF = mmFromOwn(2.5, 'us');

/** Where butt hinges are let into the edge of a door. */
export function hingesFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const lost = missing(source, NAMES);
  if (lost.length > 0) return needs('hinges along a door', lost);
  const count = Math.min(numberOf(source, 'hinge_count') ?? 0, 12);
  const [end = 0, high = 0, thick = 0] = NAMES.slice(1).map((name) => lengthOf(source, name));
  const apart = count > 1 ? (high - 2 * end) / (count - 1) : 0;
  const scale = TALL / high;
  const wide = Math.max(thick * scale, 14);
  const leaf = Math.min(LEAF, apart === 0 ? LEAF : apart * 0.6) * scale;
  const material = stage.plan.parts.parts.find(({ name }) => /stile/i.test(name))?.material;
  const middles = Array.from({ length: count }, (_, i) => end + i * apart);
  const picture = new Picture(stage.speak);
  sideNames(
    picture,
    {
      wide,
      high: TALL,
      body: [
        wood(material, box(0, 0, wide, TALL), stage.options.print === true, 5),
        ...middles.map((at) => iron(box(wide * 0.35, at * scale - leaf / 2, wide * 0.65, leaf))),
      ].join(''),
    },
    middles.map((at) => ({
      words: `Middle of a hinge: ${said(stage, at)}`,
      spot: [wide, at * scale] as Spot,
    })),
  );
  const drawn = ['hinge_end', 'hinge_count'].map((name) => measureOf(stage, step, name));
  const lines = measureLines({ measures: step.measures.filter((one) => !drawn.includes(one)) });
  picture.beneath(lines);
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: `The edge of the door on the side of its hinges, ${count} of them, measured from the top: ${middles.map((at) => said(stage, at)).join(', ')}. ${lines.map((one) => `${one}.`).join(' ')}`,
    caption:
      'The edge of a door, measured from its upper end. Mark each leaf around the hinge itself.',
    tells: drawn.flatMap((one) => (one === undefined ? [] : [one.label])),
  };
}
