import type { BuiltStep } from '../steps/built.ts';
import type { Measure } from '../steps/read-steps.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { measureLines } from './part-lines.ts';
import { FIGURE, Picture } from './picture.ts';
import { ROOM } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, stroke, wood } from './strokes.ts';

const BAR = 13;
const NEEDS =
  'its figure compares the sizes of the step, and needs two or more in one unit that are over 0. Write their names under measure, or write another word under figure.';

/** What is in one unit, such as money, as bars to one scale. */
export function barsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const groups = new Map<string, { readonly measure: Measure; readonly number: number }[]>();
  for (const measure of step.measures) {
    const value = stage.source.value(measure.at);
    if (value.kind !== 'number' || !(value.number > 0)) continue;
    const unit = measure.words.replaceAll(/[\d.,\s/\u00a0-]/g, '');
    groups.set(unit, [...(groups.get(unit) ?? []), { measure, number: value.number }]);
  }
  const [bars = []] = [...groups.values()].sort((a, b) => b.length - a.length);
  if (bars.length < 2) return NEEDS;
  const most = Math.max(...bars.map(({ number }) => number));
  const picture = new Picture(stage.speak);
  for (const { measure, number } of bars) {
    picture.beneath([`${measure.label}: ${measure.words}`], 'kb-label');
    const y = picture.bottom + 2;
    const bar = box(FIGURE.edge, y, Math.max(1, (number / most) * ROOM), BAR);
    picture.add(wood('pine', bar, stage.options.print === true, 4), y + BAR);
    picture.add(stroke('kb-quiet', box(FIGURE.edge, y, ROOM, BAR)));
  }
  const drawn = bars.map(({ measure }) => measure);
  const lines = measureLines({ measures: step.measures.filter((one) => !drawn.includes(one)) });
  picture.beneath(lines);
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: [...measureLines({ measures: drawn }), ...lines].map((one) => `${one}.`).join(' '),
    caption: 'The bars are to one scale.',
  };
}
