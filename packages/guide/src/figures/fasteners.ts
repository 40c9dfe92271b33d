import { mmFromOwn, type Points, type Rail, railsOf } from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { lengthOf } from './named-cells.ts';
import { drawNamed, type Named } from './names.ts';
import { measureLines, unitOf, writer } from './part-lines.ts';
import { FIGURE, n, Picture, type Spot } from './picture.ts';
import type { Stage } from './stage.ts';
import { box, line, size, stroke, wood } from './strokes.ts';

const NO_RAILS =
  'its figure shows where fasteners stand and needs cells named fastener_spacing, fastener_end, clear_long and clear_short. Name them, or write another word under figure.';
const MM_PER_INCH = 25.4;
/** Fasteners of a rail that are told one by one. */
const MOST = 40;

/** The base from below, the top behind it: each fastener where it stands, the way it points, and the way the top moves. */
export function fastenersFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const rails = railsOf(source);
  const long = rails.find(({ moves }) => moves === 'square');
  const short = rails.find(({ moves }) => moves === 'along');
  const own = (name: string, rail: Rail | undefined): number | undefined =>
    rail === undefined ? lengthOf(source, name) : mmFromOwn(rail.length, source.units);
  const [clearLong, clearShort] = [own('clear_long', long), own('clear_short', short)];
  if (rails.length === 0 || clearLong === undefined || clearShort === undefined) return NO_RAILS;
  if (!(clearLong > 0) || !(clearShort > 0)) return NO_RAILS;
  const leg = lengthOf(source, 'leg_size') ?? Math.min(clearLong, clearShort) / 8;
  const thick = lengthOf(source, 'apron_thickness') ?? leg / 2;
  const setback = lengthOf(source, 'apron_setback') ?? 0;
  const [wide, high] = [clearLong + 2 * leg, clearShort + 2 * leg];
  const scale = Math.min((FIGURE.wide - 2 * FIGURE.edge - 16) / wide, 160 / high);
  const u = (mm: number): number => mm * scale;
  const print = stage.options.print === true;
  const material = stage.plan.parts.parts.find(({ name }) => /apron|rail/i.test(name))?.material;
  const inner = u(Math.min(setback + thick, leg + thick));
  const strips = [
    box(u(leg), u(setback), u(clearLong), u(thick)),
    box(u(leg), u(high - setback - thick), u(clearLong), u(thick)),
    box(u(setback), u(leg), u(thick), u(clearShort)),
    box(u(wide - setback - thick), u(leg), u(thick), u(clearShort)),
  ];
  const legs = [0, wide - leg].flatMap((x) =>
    [0, high - leg].map((y) => box(u(x), u(y), u(leg), u(leg))),
  );
  const marks: string[] = [];
  const names: Named[] = [];
  if (long !== undefined) {
    const xs = long.places.map(({ at }) => u(leg + mmFromOwn(at, source.units)));
    for (const x of xs) {
      marks.push(
        fastener([x, inner], [0, 1], long.points),
        fastener([x, u(high) - inner], [0, -1], long.points),
      );
    }
    const spots = xs.slice(0, MOST).flatMap((x): Spot[] => [
      [x, inner + 3],
      [x, u(high) - inner - 3],
    ]);
    names.push({ words: kindOf(long), spots });
  }
  if (short !== undefined) {
    const ys = short.places.map(({ at }) => u(leg + mmFromOwn(at, source.units)));
    for (const y of ys) {
      marks.push(
        fastener([inner, y], [1, 0], short.points),
        fastener([u(wide) - inner, y], [-1, 0], short.points),
      );
    }
    names.push({
      words: kindOf(short),
      spots: ys.slice(0, MOST).flatMap((y): Spot[] => [
        [inner + 3, y],
        [u(wide) - inner - 3, y],
      ]),
    });
  }
  const center: Spot = [u(wide) / 2 + 9, u(high) / 2];
  const arm = Math.min(u(high) * 0.22, 34);
  const body = [
    ...strips.map((d) => wood(material, d, print, 4)),
    ...legs.map((d) => wood(material, d, print, 3)),
    ...marks,
    size([center[0], center[1] - arm], [center[0], center[1] + arm]),
    stroke('kb-center', line([u(leg), u(high) / 2], [u(wide - leg), u(high) / 2])),
  ].join('');
  names.push({ words: 'The top moves', spots: [[center[0], center[1] + arm * 0.6]] });
  const picture = new Picture(stage.speak);
  drawNamed(picture, names, { wide: u(wide), high: u(high), lines: [] }, body);
  const lines = [...rails.map((rail) => placesSaid(stage, rail)), ...measureLines(step)];
  picture.beneath(lines);
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: `The base from below. The top moves square to the long aprons. ${lines.map((one) => `${one}.`).join(' ')}`,
    caption: 'Seen from below. The dashed line is the center line of the top, which does not move.',
  };
}

const kindOf = ({ kind }: Rail): string =>
  kind === undefined ? 'Fastener' : kind.slice(0, 1).toUpperCase() + kind.slice(1);

/** `Long aprons: button, square to the apron` */
function standing(rail: Rail): string {
  const way = rail.points === undefined ? '' : `, ${rail.points}`;
  return `${rail.moves === 'square' ? 'Long' : 'Short'} aprons: ${kindOf(rail).toLowerCase()}${way}`;
}

/** `Long aprons: button, square to the apron; 3, 18 1/4 and 33 1/2 in from the left leg` */
function placesSaid({ format, source }: Stage, rail: Rail): string {
  const write = writer(format);
  // Finer than this nobody marks where a screw goes.
  const step = source.units === 'us' ? MM_PER_INCH / 16 : 1;
  const all = rail.places
    .slice(0, MOST)
    .map(({ at }) => write(Math.round(mmFromOwn(at, source.units) / step) * step));
  const last = all.pop() ?? '';
  const said = all.length === 0 ? last : `${all.join(', ')} and ${last}`;
  return `${standing(rail)}; ${said} ${unitOf(source)} from the left leg`;
}

/** A fastener at the inside face of an apron: its screw in the top, and the way its arm points. */
function fastener([x, y]: Spot, [ix, iy]: Spot, points: Points | undefined): string {
  const arm = 9;
  const at: Spot = [x + ix * 4, y + iy * 4];
  const way: Spot = points === 'along the apron' ? [Math.abs(iy), Math.abs(ix)] : [ix, iy];
  const end: Spot =
    points === undefined ? at : [x + ix * 3 + way[0] * arm, y + iy * 3 + way[1] * arm];
  const start: Spot =
    points === 'along the apron' ? [x + ix * 3, y + iy * 3] : [x - ix * 3, y - iy * 3];
  const shaft =
    points === undefined
      ? ''
      : `<path class="kb-arm" fill="none" stroke="currentColor" stroke-width="2.4" d="${line(start, end)}"/>`;
  return `${shaft}<circle class="kb-iron" fill="currentColor" cx="${n(end[0])}" cy="${n(end[1])}" r="2.3"/>`;
}
