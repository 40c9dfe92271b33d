import {
  clearOfGroove,
  type MarkedCut,
  type MarkedPieces,
  type Part,
  pocketPlaces,
} from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { lengthOf, numberOf, wordsOf } from './named-cells.ts';
import { drawNamed, type Named } from './names.ts';
import { measureLines, unitOf, writer } from './part-lines.ts';
import { FIGURE, n, Picture, type Spot } from './picture.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, ring, size, stroke, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

/** The usual step bit: 3/8 in for the head, 5/32 in for the screw, at 15° to the face. Common practice, no source. */
const POCKET = { drill: 9.525, on: 3.969, degrees: 15 };
/** The screw as it is drawn, mm: its head, and its thread. */
const SCREW = { head: 8, high: 2.5, thread: 3.6 };

const NO_POCKETS =
  'its figure shows pocket holes, and no part has any at this size. Add them to the joints table, or cells named pocket_screws_each and pocket_screw, or write another word under figure.';

/** A pocket cut open with its screw, and the pockets of the piece as they are marked out. */
export function pocketFigure(stage: Stage, step: BuiltStep): Figure | string {
  const marked = pocketsOf(stage);
  const hasPockets = ({ name }: Part): boolean => marked.some(({ part }) => part === name);
  const part =
    partOf(stage, step, /apron|rail/i, hasPockets) ??
    (step.parts.length === 0 ? stage.plan.parts.parts.find(hasPockets) : undefined);
  const own = marked.find((one) => one.part === part?.name);
  const [cut] = own?.cuts ?? [];
  if (part === undefined || cut === undefined) return NO_POCKETS;
  const into = cut.what.replace(/^pocket hole for /, '');
  const other = stage.plan.parts.parts.find(({ name }) => name === into);
  const screw = screwOf(stage);
  if (screw === undefined || other === undefined) return NO_POCKETS;
  const picture = new Picture(stage.speak);
  drawSection(picture, stage, part, other, screw);
  drawFace(picture, stage, part, own?.cuts ?? [], into);
  const lines = [
    ...marked
      .filter((one) => step.parts.length === 0 || step.parts.some(({ name }) => name === one.part))
      .flatMap((pieces) => rowsOf(pieces, stage)),
    ...measureLines(step),
  ];
  picture.beneath([...new Set(lines)]);
  const words =
    wordsOf(stage.source, 'pocket_screw') ?? `${stage.format(screw)} ${unitOf(stage.source)}`;
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: `${part.name} cut open along a pocket: the hole leans ${POCKET.degrees}° to the ${cut.on} and comes out in the middle of the end; a screw ${words} long sits on the floor of the pocket and its tip stays in ${into}. ${[...new Set(lines)].map((one) => `${one}.`).join(' ')}`,
    caption: `Seen along the end: the screw comes out in the middle of the thickness, and its tip stays in ${into}.`,
  };
}

/** Pockets of the joints table, and those that hold every end that nothing else does where the workbook counts so many. */
function pocketsOf({ source, plan, scene, format }: Stage): readonly MarkedPieces[] {
  const only = (all: readonly MarkedPieces[]): readonly MarkedPieces[] =>
    all
      .map((one) => ({
        ...one,
        cuts: one.cuts.filter(({ what }) => what.startsWith('pocket hole for ')),
      }))
      .filter(({ cuts }) => cuts.length > 0);
  const tabled = only(plan.parts.joints?.marked ?? []);
  const [each, length] = [numberOf(source, 'pocket_screws_each'), lengthOf(source, 'pocket_screw')];
  if (each === undefined || length === undefined || !Number.isInteger(each) || each < 1)
    return tabled;
  if (!(length > 0)) return tabled;
  const { count, marked } = pocketPlaces(scene.pieces, plan.parts.joints?.work, {
    each,
    length,
    format,
    units: source.units,
    fromEdge: clearOfGroove(source),
  });
  const wanted = numberOf(source, 'pocket_screw_count');
  return wanted === undefined || wanted === count ? [...tabled, ...only(marked)] : tabled;
}

function screwOf({ source, plan }: Stage): number | undefined {
  const named = lengthOf(source, 'pocket_screw');
  if (named !== undefined && named > 0) return named;
  return plan.parts.joints?.work.hardware.find(({ kind }) => kind === 'pocket screw')?.length;
}

function drawSection(picture: Picture, stage: Stage, part: Part, other: Part, screw: number): void {
  const thick = part.thickness;
  const turn = (POCKET.degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const half = screw / 2;
  const back = thick / 2 / Math.tan(turn);
  const leg = Math.min(other.thickness, other.width);
  const shown = { leg: Math.max(leg, half), rail: back + thick * 0.6, beyond: thick * 0.45 };
  const [wide, high] = [shown.leg + shown.rail, thick + 2 * shown.beyond];
  const scale = Math.min((FIGURE.wide - 2 * FIGURE.edge) / wide, 96 / high);
  const at = (x: number, y: number): Spot => [(shown.leg + x) * scale, (shown.beyond + y) * scale];
  /** Along the screw from the end, away from it where below 0, and off to its upper side. */
  const on = (along: number, off: number): readonly [number, number] => [
    along * cos - off * sin,
    thick / 2 - along * sin - off * cos,
  ];
  const toFace = (off: number): readonly [number, number] => {
    const [x, y] = on(0, off);
    return [x + (y / sin) * cos, 0];
  };
  const r = POCKET.drill / 2;
  const floor = ([r, -r] as const).map((off): readonly [number, number] => {
    const [x, y] = on(half, off);
    return y < 0 ? toFace(off) : [x, y];
  });
  const [near, far] = [toFace(r), toFace(-r)];
  const print = stage.options.print === true;
  const corners: readonly (readonly [number, number])[] = [
    [0, 0],
    near,
    floor[0] ?? near,
    floor[1] ?? far,
    far,
    [shown.rail, 0],
    [shown.rail, thick],
    [0, thick],
  ];
  const thread = [
    on(half, SCREW.thread / 2),
    on(half, -SCREW.thread / 2),
    on(-half + 4, -SCREW.thread / 2),
    on(-half, 0),
    on(-half + 4, SCREW.thread / 2),
  ];
  const head = [
    on(half, SCREW.head / 2),
    on(half, -SCREW.head / 2),
    on(half + SCREW.high, -SCREW.head / 2),
    on(half + SCREW.high, SCREW.head / 2),
  ];
  const body = [
    wood(
      other.material,
      box(...at(-shown.leg, -shown.beyond), shown.leg * scale, high * scale),
      print,
      3,
    ),
    wood(part.material, ring(corners.map(([x, y]) => at(x, y))), print, 5),
    stroke('kb-center', line(at(...on(-half - 6, 0)), at(...on(half + 40, 0)))),
    iron(ring(thread.map(([x, y]) => at(x, y)))),
    iron(ring(head.map(([x, y]) => at(x, y)))),
  ].join('');
  const tip = on(-half, 0);
  const names: Named[] = [
    { words: other.name, spots: [at(-shown.leg * 0.75, -shown.beyond * 0.3)] },
    {
      words: `Screw ${stage.format(screw)} ${unitOf(stage.source)}`,
      spots: [at(...on(half * 0.45, 0))],
    },
    { words: 'Tip', spots: [at(...tip)] },
    { words: 'Pocket', spots: [at(near[0] + (far[0] - near[0]) * 0.5, 1.5)] },
    { words: part.name, spots: [at(shown.rail - thick * 0.3, thick * 0.75)] },
  ];
  drawNamed(picture, names, { wide: wide * scale, high: high * scale, lines: [] }, body);
}

/** Middle of a pocket across the piece, mm, from the edge that it is measured from. */
const across = ({ marks }: MarkedCut): number | undefined => {
  const mark = marks[1];
  return mark === undefined ? undefined : (mark.from + mark.to) / 2;
};

/** The face that is drilled, near its end, with the middle of each pocket. */
function drawFace(
  picture: Picture,
  stage: Stage,
  part: Part,
  cuts: readonly MarkedCut[],
  into: string,
): void {
  const same = cuts.filter(({ what, on }) => what === cuts[0]?.what && on === cuts[0]?.on);
  const middles = [
    ...new Set(same.flatMap((cut) => across(cut) ?? []).map((one) => Math.round(one * 100) / 100)),
  ].sort((a, b) => a - b);
  const [first] = middles;
  if (first === undefined) return;
  const back = part.thickness / 2 / Math.tan((POCKET.degrees * Math.PI) / 180);
  const shown = back * 1.9;
  const scale = Math.min(150 / shown, 90 / part.width);
  const r = (POCKET.drill / 2) * scale;
  const half = (screwOf(stage) ?? 0) / 2;
  const print = stage.options.print === true;
  const reference = same[0]?.marks[1]?.reference ?? '';
  const names: Named[] = [];
  const parts = [wood(part.material, box(0, 0, shown * scale, part.width * scale), print, 5)];
  for (const middle of middles) {
    const y = middle * scale;
    const [from, to] = [Math.min(half, back * 0.8) * scale, (back + POCKET.drill) * scale];
    parts.push(
      stroke(
        'kb-new',
        `M${n(from)} ${n(y - r)}H${n(to - r)}A${n(r)} ${n(r)} 0 0 1 ${n(to - r)} ${n(y + r)}H${n(from)}Z`,
      ),
      stroke('kb-center', line([0, y], [to + 8, y])),
      size([shown * scale + 8, 0], [shown * scale + 8, y]),
    );
    names.push({
      words: `${stage.format(middle)} ${unitOf(stage.source)} from the ${reference}`,
      spots: [[to + 8, y]],
    });
  }
  names.push({ words: `End at ${into}`, spots: [[0, part.width * scale * 0.5]] });
  drawNamed(
    picture,
    names.slice(0, 8),
    { wide: shown * scale + 12, high: part.width * scale, lines: [] },
    parts.join(''),
  );
}

/** `Long apron into Leg, inside face: 1 and 2 1/2 in from the top edge`, for what is drilled alike. */
function rowsOf(pieces: MarkedPieces, { format, source }: Stage): readonly string[] {
  const write = writer(format);
  const rows = new Map<string, Set<number>>();
  for (const cut of pieces.cuts) {
    const middle = across(cut);
    if (middle === undefined) continue;
    const into = cut.what.replace(/^pocket hole for /, '');
    const key = JSON.stringify([into, cut.on, cut.marks[1]?.reference ?? '']);
    const own = rows.get(key) ?? new Set();
    rows.set(key, own.add(Math.round(middle * 100) / 100));
  }
  return [...rows].map(([key, middles]) => {
    const [into, on, reference] = JSON.parse(key) as readonly string[];
    const all = [...middles].sort((a, b) => a - b).map(write);
    const last = all.pop() ?? '';
    const written = all.length === 0 ? last : `${all.join(', ')} and ${last}`;
    return `${pieces.part} into ${into}, ${on}: ${written} ${unitOf(source)} from the ${reference}`;
  });
}
