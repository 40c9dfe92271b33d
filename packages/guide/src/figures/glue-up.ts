import {
  fastenerPlaces,
  type GluedBoards,
  glueClampUps,
  mmFromOwn,
  type Part,
} from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { sectionOf } from './milling.ts';
import { lengthOf, numberOf, wordsOf } from './named-cells.ts';
import { drawNamed, type Named } from './names.ts';
import { measureLines, unitOf, writer } from './part-lines.ts';
import { FIGURE, n, Picture, type Spot, widthOf } from './picture.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, rings, size, stroke, uprightRings, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

/** A panel that is glued up of boards, mm. */
interface Panel {
  readonly name: string;
  readonly material: string | undefined;
  readonly count: number;
  readonly width: number;
  readonly length: number;
  readonly thickness: number;
}

/** Between what is not glued to each other in this round, units. */
const APART = 20;
/** All boards side by side, seen from above, are drawn no higher than this, units; what stands between groups comes on top. */
const BOARDS_HIGH = 56;
/** Boards of one panel are as long to within this, mm. */
const SAME_LENGTH = 0.5;
/** More boards than these are no panel, but a slip of the pen. */
const MOST_BOARDS = 80;

/** How boards lie and are clamped: their ends with the rings by turns up and down, and the panel from above. */
export function glueUpFigure(stage: Stage, step: BuiltStep): Figure | string {
  const panel = panelOf(stage, step);
  if (panel === undefined) {
    return 'its figure shows a glue-up, and no part is glued up of boards. Fill in boards, board width and board length of one in the parts table, or write another word under figure.';
  }
  if (panel.count > MOST_BOARDS) {
    return `its figure shows a glue-up of ${panel.count} boards, and draws at most ${MOST_BOARDS}. Look at the width of the boards.`;
  }
  const atOnce = numberOf(stage.source, 'at_once');
  const rounds = atOnce === undefined ? [] : glueClampUps(panel.count, atOnce);
  const all: readonly (readonly GluedBoards[])[] = [[{ from: 1, to: panel.count }]];
  const round = step.round === undefined ? undefined : rounds[step.round.is - 1];
  const groups = round ?? all;
  const isWhole = round === undefined;
  const picture = new Picture(stage.speak);
  drawEnds(picture, stage, panel, groups, isWhole);
  const clamps = clampsAlong(stage, panel);
  if (clamps.length > 0) drawAbove(picture, stage, panel, groups, clamps, isWhole);
  const lines = linesOf(stage, step, panel, groups, isWhole, clamps.length);
  picture.beneath(lines);
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: `The ends of the boards of ${panel.name} side by side, growth rings ${isQuartersawn(stage) ? 'upright' : 'bowed up and down by turns'}; clamps by turns above and below, cauls across the ends. ${lines.map((one) => `${one}.`).join(' ')}`,
    ...(step.round === undefined || step.round.is === 1
      ? {
          caption: isQuartersawn(stage)
            ? 'Growth rings of quartersawn boards stand upright: the panel stays flat whichever face of each board is up.'
            : 'Growth rings bow up and down by turns, so that the panel stays flat as a whole. Some makers show the better face of each board instead.',
        }
      : {}),
  };
}

/** Whether the boards are quartersawn: then no face of them is a bark side. */
const isQuartersawn = ({ source }: Stage): boolean => /quarter/i.test(wordsOf(source, 'cut') ?? '');

function panelOf(stage: Stage, step: BuiltStep): Panel | undefined {
  const { source } = stage;
  const glued = ({ panelBoards }: Part): boolean => panelBoards !== undefined;
  const part = partOf(stage, step, /top|panel|seat/i, glued) ?? stage.plan.parts.parts.find(glued);
  if (part?.panelBoards !== undefined) {
    const { count, width, length } = part.panelBoards;
    const { name, material } = part;
    return { name, material, count, width, length, thickness: sectionOf(stage, part).thick };
  }
  const [count, width, length] = [
    numberOf(source, 'panel_boards'),
    lengthOf(source, 'panel_board_width'),
    lengthOf(source, 'panel_board_length'),
  ];
  if (count === undefined || width === undefined || length === undefined) return undefined;
  if (!Number.isInteger(count) || count < 1 || !(width > 0) || !(length > 0)) return undefined;
  const thickness = lengthOf(source, 'planed_thickness') ?? width / 5;
  return { name: 'the panel', material: undefined, count, width, length, thickness };
}

/** Groups with what of the panel each takes, in units across it. */
function placesOf(
  groups: readonly (readonly GluedBoards[])[],
  wide: number,
): readonly {
  readonly group: readonly GluedBoards[];
  readonly from: number;
  readonly to: number;
}[] {
  let at = 0;
  return groups.map((group) => {
    const boards = (group.at(-1)?.to ?? 0) - (group[0]?.from ?? 0) + 1;
    const place = { group, from: at, to: at + boards * wide };
    at = place.to + APART;
    return place;
  });
}

function drawEnds(
  picture: Picture,
  stage: Stage,
  panel: Panel,
  groups: readonly (readonly GluedBoards[])[],
  isWhole: boolean,
): void {
  const room = FIGURE.wide - 2 * FIGURE.edge;
  const pad = 10;
  const inner = room - 2 * pad - APART * (groups.length - 1);
  const wide = Math.min(inner / panel.count, 60);
  const high = Math.max(6, Math.min(40, (wide * panel.thickness) / panel.width));
  const [bar, caul] = [5, 4];
  const top = bar + 5 + caul;
  const parts: string[] = [];
  const places = placesOf(groups, wide);
  const total = (places.at(-1)?.to ?? 0) + 2 * pad;
  const print = stage.options.print === true;
  const quartersawn = isQuartersawn(stage);
  for (const { group, from, to } of places) {
    const [left, right] = [pad + from, pad + to];
    const first = (group[0]?.from ?? 1) - 1;
    for (let x = left, i = first; x < right - 1e-6; x += wide, i += 1) {
      parts.push(
        wood(panel.material, box(x, top, wide, high), print, 5),
        quartersawn ? uprightRings(x, top, wide, high) : rings(x, top, wide, high, i % 2 === 0),
      );
    }
    if (!isWhole && group.length < 2) continue;
    parts.push(stroke('kb-new', box(left + 1, top - caul, right - left - 2, caul)));
    parts.push(stroke('kb-new', box(left + 1, top + high, right - left - 2, caul)));
    // A bar above with its jaws down at both edges; behind it one below, its jaws up.
    parts.push(iron(box(left - 7, top - caul - 5 - bar, right - left + 14, bar)));
    for (const x of [left - 7, right + 2]) {
      parts.push(iron(box(x, top - caul - 5, 5, caul + 5 + high * 0.75)));
    }
    parts.push(stroke('kb-hidden', box(left - 7, top + high + caul + 5, right - left + 14, bar)));
  }
  const bottom = top + high + caul + 5 + bar;
  const every = Math.max(1, Math.ceil((widthOf(String(panel.count)) + 8) / wide));
  const middle = (i: number): Spot => [pad + (i + 0.5) * wide, top + high / 2];
  const [clamped] = isWhole ? places : places.filter(({ group }) => group.length > 1);
  const start = places[0];
  const inFirst = start === undefined ? 0 : Math.round((start.to - start.from) / wide);
  const names: Named[] = [
    ...(quartersawn ? [] : [{ words: 'Bark side up', spots: [middle(0)] }]),
    ...(quartersawn || inFirst < 2 ? [] : [{ words: 'Bark side down', spots: [middle(1)] }]),
    ...(clamped === undefined
      ? []
      : [
          { words: 'Clamp above', spots: [[pad + clamped.to - 4, bar / 2] as Spot] },
          // Between two numbers, where its leader runs through neither.
          { words: 'Next one below', spots: [[pad + clamped.to - wide, bottom - bar / 2] as Spot] },
        ]),
  ];
  const numbers = new Picture();
  for (const { group, from } of places) {
    const first = group[0]?.from ?? 1;
    for (let board = first; board <= (group.at(-1)?.to ?? 0); board += 1) {
      // Where boards are too narrow for a number each, every second or third has one.
      if ((board - 1) % every !== 0) continue;
      const x = pad + from + (board - first + 0.5) * wide;
      numbers.text(x, bottom + FIGURE.text, String(board), 'middle');
    }
  }
  const body = [...parts, ...numbers.parts].join('');
  drawNamed(picture, names, { wide: total, high: bottom + FIGURE.text + 3, lines: [] }, body);
}

/** Where clamps stand along a board, mm from its end; none where the workbook does not say. */
function clampsAlong({ source }: Stage, { length }: Panel): readonly number[] {
  const [spacing, end] = [lengthOf(source, 'clamp_spacing'), lengthOf(source, 'clamp_end')];
  if (spacing === undefined || end === undefined) return [];
  return fastenerPlaces(length, spacing, end).slice(0, 80);
}

function drawAbove(
  picture: Picture,
  stage: Stage,
  panel: Panel,
  groups: readonly (readonly GluedBoards[])[],
  clamps: readonly number[],
  isWhole: boolean,
): void {
  const room = FIGURE.wide - 2 * FIGURE.edge;
  const jaw = 6;
  const scale = Math.min(room / panel.length, BOARDS_HIGH / (panel.count * panel.width));
  const [long, wide] = [panel.length * scale, panel.width * scale];
  const places = placesOf(groups, wide);
  const print = stage.options.print === true;
  const parts: string[] = [];
  for (const { group, from, to } of places) {
    const [top, high] = [jaw + from, to - from];
    parts.push(wood(panel.material, box(0, top, long, high), print, 5));
    let seams = '';
    for (let y = top + wide; y < top + high - 1e-6; y += wide) seams += line([0, y], [long, y]);
    parts.push(stroke('kb-quiet', seams));
    if (!isWhole && group.length < 2) continue;
    for (const [i, at] of clamps.entries()) {
      const x = at * scale;
      const d = box(x - 1.6, top - jaw + 1, 3.2, high + 2 * jaw - 2);
      if (i % 2 === 0) parts.push(iron(d));
      else {
        parts.push(stroke('kb-hidden', box(x - 1.6, top, 3.2, high)));
        parts.push(
          iron(box(x - 1.6, top - jaw + 1, 3.2, jaw - 1)),
          iron(box(x - 1.6, top + high, 3.2, jaw - 1)),
        );
      }
    }
    const inset = Math.min(((clamps[0] ?? 0) * scale) / 2, 12);
    for (const x of [inset, long - inset]) {
      parts.push(stroke('kb-new', box(x - 2, top, 4, high)));
    }
  }
  const bottom = 2 * jaw + (places.at(-1)?.to ?? 0);
  const [first = 0, second, third] = clamps.map((at) => at * scale);
  const y = bottom + 5;
  parts.push(size([0, y], [first, y]));
  const names: Named[] = [
    {
      words: `First clamp ${wordsOf(stage.source, 'clamp_end') ?? ''} from each end`,
      spots: [[first / 2, y]],
    },
    { words: 'Caul', spots: [[long - Math.min(first / 2, 12), jaw + 3]] },
  ];
  const [from, to] = third === undefined ? [first, second] : [second, third];
  if (from !== undefined && to !== undefined) {
    parts.push(size([from, y], [to, y]));
    const apart = (clamps[1] ?? 0) - (clamps[0] ?? 0) || 0;
    names.push({
      words: `Clamps about ${writer(stage.format)(roundedOwn(apart, stage))} ${unitOf(stage.source)} apart`,
      spots: [[(from + to) / 2, y]],
    });
  }
  drawNamed(picture, names, { wide: long, high: y + 3, lines: [] }, parts.join(''));
}

/** As near as it is worth measuring a place for a clamp: half an inch, or a centimetre. */
function roundedOwn(mm: number, { source }: Stage): number {
  const step = source.units === 'us' ? mmFromOwn(0.5, 'us') : 10;
  return Math.max(step, Math.floor(mm / step) * step);
}

function linesOf(
  { source, format }: Stage,
  step: BuiltStep,
  panel: Panel,
  groups: readonly (readonly GluedBoards[])[],
  isWhole: boolean,
  clamps: number,
): readonly string[] {
  const write = writer(format);
  const sizes = [panel.thickness, panel.width, panel.length].map(write).join(' × ');
  const said = ({ from, to }: GluedBoards): string =>
    from === to ? String(from) : `${from}–${to}`;
  const together = groups
    .filter((group) => group.length > 1)
    .map((group) => group.map(said).join(' and '));
  const waits = groups.filter((group) => group.length === 1).flatMap((group) => group.map(said));
  // A later round is told what is new in it.
  const isLater = step.round !== undefined && step.round.is > 1;
  return [
    ...(isLater
      ? []
      : [`${panel.count} boards: ${sizes} ${unitOf(source)}, numbered from one edge`]),
    ...(isWhole || together.length === 0 ? [] : [`This round: ${together.join(', ')}`]),
    ...(isWhole || waits.length === 0
      ? []
      : [`${waits.join(', ')} ${waits.length === 1 ? 'waits' : 'wait'} for the next round`]),
    ...(isLater ? [] : clampCounts(source, panel, clamps)),
    ...measureLines(step),
  ];
}

function clampCounts(source: Stage['source'], { length }: Panel, drawn: number): readonly string[] {
  const [spaced, full] = [numberOf(source, 'clamp_count_spaced'), numberOf(source, 'clamp_count')];
  if (spaced === undefined && full === undefined) return [];
  const counted = numberOf(source, 'panel_board_length');
  const isOther =
    counted !== undefined && Math.abs(mmFromOwn(counted, source.units) - length) > SAME_LENGTH;
  // None are counted for a panel that is one board at this size, nor for a second one; those drawn can be seen.
  if (isOther || spaced === 0 || full === 0)
    return drawn > 0 ? [`Clamps for one joint: ${n(drawn)}`] : [];
  if (spaced === undefined || full === undefined || spaced === full) {
    return [`Clamps for one joint: ${n(full ?? spaced ?? 0)}`];
  }
  return [
    `Clamps for one joint: ${n(spaced)} where the edges close in the dry fit, else ${n(full)}`,
  ];
}
