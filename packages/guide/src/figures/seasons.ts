import { mmFromOwn, ownFromMm, railsOf } from '@kerfbook/drawing';
import { showValue, withUnit } from '@kerfbook/workbook';
import type { BuiltStep } from '../steps/built.ts';
import { saidMm } from '../text/as-said.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { lengthOf, needs } from './named-cells.ts';
import { panelLost, panelSection } from './panel-groove.ts';
import { measureLines, unitOf } from './part-lines.ts';
import { FIGURE, Picture, wrapped } from './picture.ts';
import { across, STILL } from './plate.ts';
import type { SpokenWords } from './speak.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, ring, size, stroke, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

/** Of the change of the whole width, what each side does; below 0 it is narrower than on the day it was built. */
interface Season {
  readonly name: string;
  /** mm at one side, outwards. */
  readonly out: number;
}

const BETWEEN = 9;
const COLUMN = (FIGURE.wide - 2 * FIGURE.edge - 2 * BETWEEN) / 3;

/** The same place in the dry season, on the day it is built and in the humid season, beside each other to one scale. */
export function seasonsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const [dry, humid] = ['movement_from_build_dry', 'movement_from_build_humid'].map((name) =>
    lengthOf(source, name),
  );
  if (dry === undefined || humid === undefined) {
    const inGroove = grooveSeasons(stage, step);
    if (inGroove !== undefined) return inGroove;
    return needs('what the seasons do', ['movement_from_build_dry', 'movement_from_build_humid']);
  }
  const seasons: readonly Season[] = [
    { name: 'Dry season', out: dry / 2 },
    { name: 'Day it is built', out: 0 },
    { name: 'Humid season', out: humid / 2 },
  ];
  const gap = lengthOf(source, 'tongue_gap');
  const tongued = railsOf(source).some(
    ({ kind, moves }) => moves === 'square' && (kind === 'button' || kind === 'clip'),
  );
  const picture = new Picture(stage.speak);
  const told =
    tongued && gap !== undefined && step.figure.of === undefined
      ? shoulders(picture, stage, seasons, gap)
      : edges(picture, stage, step, seasons);
  picture.beneath(measureLines(step));
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: [told.says, ...measureLines(step).map((one) => `${one}.`)].join(' '),
    caption: told.caption,
  };
}

/** A panel in its groove in each season; undefined where the workbook names no such gaps. */
function grooveSeasons(stage: Stage, step: BuiltStep): Figure | undefined {
  const names = ['gap_dry', 'gap_today', 'gap_humid'];
  const gaps = names.map((name) => lengthOf(stage.source, name));
  if (panelLost(stage) !== undefined || gaps.includes(undefined)) return undefined;
  const seasons = ['Dry season', 'Day it is built', 'Humid season'].map((name, i) => ({
    name,
    out: gaps[i] ?? 0,
  }));
  const picture = new Picture(stage.speak);
  const { high } = panelSection(stage, 0, COLUMN);
  const draw = ({ out }: Season): string => {
    const { body, floor, tip, groove } = panelSection(stage, out, COLUMN);
    const y = high + 8;
    return [...body, tip - floor < 0.5 ? '' : across(floor, tip, y, groove[1] - y)].join('');
  };
  const said = ({ out }: Season): string => (out > 0 ? `Gap ${fine(stage, out)}` : 'No gap left');
  columns(picture, seasons, high + 12, draw, (season) => [said(season)]);
  picture.beneath(measureLines(step));
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: `The panel in the groove of its stile. ${seasons.map((season) => `${season.name}: ${said(season).toLowerCase()}.`).join(' ')} ${measureLines(
      step,
    )
      .map((one) => `${one}.`)
      .join(' ')}`,
    caption:
      'Cut across, the front face up: the stile stays where it is, the panel shrinks and grows in its groove.',
  };
}

interface Told {
  readonly says: string;
  readonly caption: string;
}

/** Inches to 1/32: what moves is less than a sixteenth tells. */
function fine({ source }: Stage, mm: number): string {
  const { units, currency } = source;
  const own = Number(ownFromMm(mm, units).toPrecision(12));
  const number = units === 'us' ? own : saidMm(own);
  const show = units === 'us' ? ({ as: 'fraction', denominator: 32 } as const) : undefined;
  const { text } = showValue(
    { kind: 'number', number },
    { quantity: 'length', system: units, currency, ...(show === undefined ? {} : { show }) },
  );
  return withUnit(text, unitOf(source));
}

/** Titles over three columns, and a line under each. */
function columns(
  picture: Picture,
  seasons: readonly Season[],
  high: number,
  draw: (season: Season) => string,
  under: (season: Season) => readonly string[],
): void {
  /** What is said in another language may take more than a line. */
  const inLines = (words: string): readonly SpokenWords[] => {
    const spoken = picture.speak(words);
    return wrapped(spoken.words, COLUMN).map((one) => ({ ...spoken, words: one }));
  };
  const titles = seasons.map(({ name }) => inLines(name));
  const more = Math.max(...titles.map(({ length }) => length)) - 1;
  const top = FIGURE.edge + FIGURE.line + 3 + more * FIGURE.line * 0.85;
  let lines = 0;
  for (const [i, season] of seasons.entries()) {
    const left = FIGURE.edge + i * (COLUMN + BETWEEN);
    const middle = left + COLUMN / 2;
    for (const [k, one] of (titles[i] ?? []).entries()) {
      const y = FIGURE.edge + FIGURE.text * 0.85 + k * FIGURE.line * 0.85;
      picture.write([middle, y], one, 'middle');
    }
    picture.add(`<g transform="translate(${left} ${top})">${draw(season)}</g>`, top + high);
    const said = under(season).flatMap(inLines);
    lines = Math.max(lines, said.length);
    for (const [k, one] of said.entries()) {
      picture.write([middle, top + high + FIGURE.line * (0.95 + k * 0.9)], one, 'middle');
    }
  }
}

/** The tongue of a fastener in the groove of a long apron, and the gap at its shoulder. */
function shoulders(picture: Picture, stage: Stage, seasons: readonly Season[], gap: number): Told {
  const { source } = stage;
  const own = (name: string, otherwise: number): number => lengthOf(source, name) ?? otherwise;
  const apron = own('apron_thickness', mmFromOwn(0.75, 'us'));
  const tongue = own('tongue_length', apron / 2);
  const [edge, width, depth] = [
    own('groove_edge', 12),
    own('groove_width', 9),
    own('groove_depth', tongue),
  ];
  const top = Math.min(own('top_thickness', apron), 25);
  // Nearer to the middle than the edge is, the top moves less.
  const support = lengthOf(source, 'support_length') ?? lengthOf(source, 'apron_inside');
  const whole = lengthOf(source, 'top_width');
  const share =
    support !== undefined && whole !== undefined && whole > 0 ? Math.min(1, support / whole) : 1;
  const gapAt = ({ out }: Season): number => gap - out * share;
  const body = tongue * 1.5;
  const most = Math.max(...seasons.map(gapAt), gap);
  const wide = apron + most + body;
  const below = edge + width + Math.max(width, 8);
  const scale = Math.min(COLUMN / wide, 130 / (top + below));
  const u = (mm: number): number => mm * scale;
  const print = stage.options.print === true;
  const parts = stage.plan.parts.parts;
  const materialOf = (called: RegExp): string | undefined =>
    parts.find(({ name }) => called.test(name))?.material;
  const [inside, under] = [u(apron), u(top)];
  const draw = (season: Season): string => {
    const shoulder = u(apron + Math.max(0, gapAt(season)));
    const tip = shoulder - u(tongue);
    const low = under + u(edge + width);
    return [
      wood(materialOf(/top|seat/i), box(0, 0, u(wide), under), print, 5),
      wood(
        materialOf(/apron|rail/i),
        ring([
          [0, under],
          [inside, under],
          [inside, under + u(edge)],
          [inside - u(depth), under + u(edge)],
          [inside - u(depth), low],
          [inside, low],
          [inside, under + u(below)],
          [0, under + u(below)],
        ]),
        print,
        4,
      ),
      wood(
        materialOf(/apron|rail/i),
        ring([
          [shoulder, under],
          [u(wide), under],
          [u(wide), low],
          [tip, low],
          [tip, under + u(edge) + 1],
          [shoulder, under + u(edge) + 1],
        ]),
        print,
        6,
      ),
      gapAt(season) * scale < 0.5 ? '' : size([inside, low + 7], [shoulder, low + 7]),
      gapAt(season) * scale < 0.5
        ? ''
        : stroke('kb-dimension', `${line([shoulder, low], [shoulder, low + 11])}`),
    ].join('');
  };
  const said = (season: Season): string =>
    gapAt(season) > 0 ? `Gap ${fine(stage, gapAt(season))}` : 'No gap left';
  columns(picture, seasons, u(top + below), draw, (season) => [said(season)]);
  return {
    says: `The tongue of a fastener in the groove of the long apron. ${seasons.map((season) => `${season.name}: ${said(season).toLowerCase()}.`).join(' ')}`,
    caption:
      'To scale: the top carries its fastener along as it moves, and the gap at the shoulder lets it.',
  };
}

/** Whether a panel is held along one edge, so that all of its movement comes out at the other one. */
function isHeldAtEdge({ source }: Stage, { figure }: BuiltStep): boolean {
  const value = source.named('panel_held')?.value;
  const held = value?.kind === 'text' ? value.text : (figure.of ?? '');
  return /edge|front|back/i.test(held) && !/middle|center/i.test(held);
}

/** The whole width of a panel and where its edges go; beside it what keeps its length, where the workbook has such ends. */
function edges(picture: Picture, stage: Stage, step: BuiltStep, seasons: readonly Season[]): Told {
  const panel = partOf(stage, step, /top|panel|seat/i);
  const name = panel?.name ?? 'Panel';
  const end =
    lengthOf(stage.source, 'end_width') === undefined
      ? undefined
      : stage.plan.parts.parts.find((part) => /\bend\b/i.test(part.name));
  const oneEdge = isHeldAtEdge(stage, step);
  const moved = ({ out }: Season): number => (oneEdge ? 2 * out : out);
  const most = Math.max(...seasons.map((season) => Math.abs(moved(season))), 0.1);
  const half = 30;
  const scale = Math.min((COLUMN / 2 - half - 4) / most, 8);
  const middle = COLUMN / 2;
  const print = stage.options.print === true;
  const [strip, deep] = [end === undefined ? 0 : 14, 34];
  const from = 6 + strip;
  const high = from + deep + 22;
  const draw = (season: Season): string => {
    const by = moved(season) * scale;
    const [left, right] = [middle - half - (oneEdge ? 0 : by), middle + half + by];
    const sides: readonly (readonly [number, number])[] = oneEdge
      ? [[middle + half, right]]
      : [
          [left, middle - half],
          [middle + half, right],
        ];
    const was = oneEdge ? [middle + half] : [middle - half, middle + half];
    const held = oneEdge ? middle - half : middle;
    const low = from + deep + 10;
    const isMoved = Math.abs(by) >= 0.5 && Math.abs(moved(season)) >= STILL;
    return [
      end === undefined ? '' : wood(end.material, box(middle - half, 6, 2 * half, strip), print, 4),
      wood(panel?.material, box(left, from, right - left, deep), print, 5),
      ...was.map((x) => stroke('kb-hidden', line([x, 0], [x, low + 6]))),
      iron(
        ring([
          [held - 4, from + deep + 8],
          [held + 4, from + deep + 8],
          [held, from + deep + 1],
        ]),
      ),
      ...(isMoved ? sides.map(([a, b]) => size([a, low], [b, low])) : []),
    ].join('');
  };
  const where = oneEdge ? 'at the free edge' : 'each side';
  const said = (season: Season): readonly string[] => {
    const mm = moved(season);
    if (mm === 0) return [];
    if (Math.abs(mm) < STILL) return ['hardly moves'];
    return [
      fine(stage, Math.abs(mm)),
      `${mm < 0 ? 'narrower' : 'wider'} ${oneEdge ? '' : where}`.trim(),
    ];
  };
  columns(picture, seasons, high, draw, said);
  const ends = end === undefined ? '' : `, and ${end.name} that keeps its length`;
  return {
    says: `${name} across its width${ends}. ${seasons.map((season) => `${season.name}: ${said(season).join(' ') || 'as it was made'}.`).join(' ')}`,
    caption: `${name} across its width${ends}; the dashed lines are where its ${oneEdge ? 'free edge was' : 'edges were'} on the day it was built, the wedge is where it is held. What moves is drawn larger than it is.`,
  };
}
