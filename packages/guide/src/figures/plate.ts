import { mmFromOwn } from '@kerfbook/drawing';
import type { GuideSource } from '../source.ts';
import type { BuiltStep } from '../steps/built.ts';
import type { Measure } from '../steps/read-steps.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { wordsOf } from './named-cells.ts';
import { drawNamed, type Named } from './names.ts';
import { measureLines, unitOf, writer } from './part-lines.ts';
import { FIGURE, Picture, type Spot } from './picture.ts';
import type { Stage } from './stage.ts';
import { line, size, stroke } from './strokes.ts';

/** Room for a drawing across a figure, units. */
export const ROOM = FIGURE.wide - 2 * FIGURE.edge;

/** What moves less than this hardly moves, mm: a rule does not show it. */
export const STILL = 25.4 / 64;

/** One drawing of a figure with the names around it, in units from its own upper left. */
export interface Plate {
  readonly wide: number;
  readonly high: number;
  /** From back to front. */
  readonly body: readonly string[];
  readonly names: readonly Named[];
}

/** What is told of a figure beside its drawings. */
interface Told {
  /** For whoever does not see it; its lines are added. */
  readonly says: string;
  readonly caption?: string;
  /** Beneath the drawings, before the sizes of the step that the drawings do not bear. */
  readonly lines?: readonly string[];
  /** Sizes of the step that stand in the drawings. */
  readonly drawn?: readonly (Measure | undefined)[];
}

/** A figure of one drawing or several, one beneath the other. */
export function plated(
  stage: Stage,
  step: BuiltStep,
  plates: readonly Plate[],
  { says, caption, lines = [], drawn = [] }: Told,
): Figure {
  const picture = new Picture(stage.speak);
  for (const { wide, high, body, names } of plates) {
    drawNamed(picture, names, { wide, high, lines: [] }, body.join(''));
  }
  const left = step.measures.filter((one) => !drawn.includes(one));
  const beneath = [...lines, ...measureLines({ measures: left })];
  picture.beneath(beneath);
  const tells = drawn.flatMap((one) => (one === undefined ? [] : [one.label]));
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: [says, ...beneath.map((one) => `${one}.`)].join(' '),
    ...(caption === undefined ? {} : { caption }),
    ...(tells.length === 0 ? {} : { tells }),
  };
}

/** The size of a step that is the cell of a name; undefined where the step does not ask for it. */
export function measureOf(
  { source }: Stage,
  { measures }: BuiltStep,
  name: string,
): Measure | undefined {
  const at = source.named(name)?.at;
  if (at === undefined) return undefined;
  return measures.find(
    ({ at: one }) => one.sheet === at.sheet && one.row === at.row && one.column === at.column,
  );
}

/** The first of some names that the step asks for as a size, with what it is. */
export function askedOf(
  stage: Stage,
  step: BuiltStep,
  names: readonly string[],
): { readonly name: string; readonly measure: Measure; readonly mm: number } | undefined {
  for (const name of names) {
    const measure = measureOf(stage, step, name);
    const mm = measure === undefined ? undefined : lengthIn(stage.source, measure);
    if (measure !== undefined && mm !== undefined) return { name, measure, mm };
  }
  return undefined;
}

/** The size of a step that comes to a length, mm, among those that are not taken yet. */
export function measureAs(
  { source }: Stage,
  { measures }: BuiltStep,
  mm: number,
  taken: readonly (Measure | undefined)[] = [],
): Measure | undefined {
  return measures.find((one) => {
    const own = lengthIn(source, one);
    return !taken.includes(one) && own !== undefined && Math.abs(own - mm) < 0.01;
  });
}

function lengthIn(source: GuideSource, { at }: Measure): number | undefined {
  const value = source.value(at);
  return value.kind === 'number' ? mmFromOwn(value.number, source.units) : undefined;
}

/** A length as it stands in a sentence: `3/8 in`. */
export const said = ({ format, source }: Stage, mm: number): string =>
  `${writer(format)(mm)} ${unitOf(source)}`;

/** `Thick 3/4 in`, of a named cell; nothing where there is none. */
export function nameOf(stage: Stage, words: string, name: string, spot: Spot): readonly Named[] {
  const own = wordsOf(stage.source, name);
  return own === undefined ? [] : [{ words: `${words} ${own}`.trim(), spots: [spot] }];
}

/** A dimension across at a height, with lines up or down to what it measures. */
export const across = (from: number, to: number, y: number, reach: number): string =>
  [
    size([from, y], [to, y]),
    stroke(
      'kb-dimension',
      `${line([from, y - Math.sign(reach) * 3], [from, y + reach])}${line([to, y - Math.sign(reach) * 3], [to, y + reach])}`,
    ),
  ].join('');

/** The same upright, at a place from the left. */
export const upright = (from: number, to: number, x: number, reach: number): string =>
  [
    size([x, from], [x, to]),
    stroke(
      'kb-dimension',
      `${line([x - Math.sign(reach) * 3, from], [x + reach, from])}${line([x - Math.sign(reach) * 3, to], [x + reach, to])}`,
    ),
  ].join('');
