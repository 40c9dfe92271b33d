import type { MarkedCut, MarkedPieces, Part, Piece } from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import type { Measure } from '../steps/read-steps.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { drawNamed, type Named } from './names.ts';
import { measureLines, unitOf, writer } from './part-lines.ts';
import { FIGURE, Picture, type Spot } from './picture.ts';
import { measureAs } from './plate.ts';
import { sideNames } from './side-names.ts';
import type { Stage } from './stage.ts';
import { box, line, size, stroke, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

/** From one end of the piece, mm, how far along it a cut begins and ends, and how far across from one edge. */
interface Place {
  readonly along: readonly [number, number];
  readonly across: readonly [number, number];
  readonly cut: MarkedCut;
}

/** Marks told one by one at the side of the piece; of more the rest stands in a line beneath. */
const MOST = 12;
/** Units. */
const TALL = 250;
const BROAD = 130;

/**
 * What is marked out on one face of a part, each with how far it is from one end. `marking: Side from the bottom` takes
 * the lower end, else the end is the one that the joints table is read from; `marking: hole in Side` shows holes alone,
 * and `marking: Side, back face` that face.
 */
export function markingFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { what, of } = askedOf(step);
  const all = (stage.plan.parts.joints?.marked ?? [])
    .map((one) => ({ ...one, cuts: one.cuts.filter((cut) => isOnFace(cut, what)) }))
    .filter(({ cuts }) => cuts.length > 0);
  const named = all.filter(({ part }) => isNamed(of, part));
  const own =
    of === ''
      ? all.find(({ part }) => part === partOf(stage, step, /./)?.name)
      : (named.find(({ cuts }) => cuts.some((cut) => isFace(of, cut))) ?? named[0]);
  const part = stage.plan.parts.parts.find(({ name }) => name === own?.part);
  const copy = own?.copies[0] ?? 0;
  const piece = stage.scene.pieces.find((one) => one.part === part && one.copy === copy);
  if (own === undefined || part === undefined || piece === undefined) return NOTHING;
  const on = faceOf(own, of);
  const cuts = own.cuts.filter((cut) => cut.on === on);
  const [end, edge] = cuts[0]?.marks ?? [];
  if (end === undefined || edge === undefined) return NOTHING;
  const turned = / from the (?:bottom|foot|lower end)/.test(of);
  const from = turned ? opposite(end.reference) : end.reference;
  const [long, wide] = [part.length, acrossOf(piece, part, on, end.reference)];
  const places = cuts.flatMap((cut): readonly Place[] => {
    const [a, b] = cut.marks;
    if (a === undefined || b === undefined) return [];
    const otherEnd = (a.reference !== end.reference) !== turned;
    return [
      {
        cut,
        along: otherEnd ? [long - a.to, long - a.from] : [a.from, a.to],
        across: b.reference === edge.reference ? [b.from, b.to] : [wide - b.to, wide - b.from],
      },
    ];
  });
  const marks = labelled(stage, places, long);
  const body: Body = { stage, part, places, marks, long, wide };
  const picture = new Picture(stage.speak);
  const stands = /^(?:top|bottom)/.test(end.reference);
  if (stands) drawUpright(picture, body, from);
  else drawLying(picture, body);
  const drawn = sizesDrawn(stage, step, places);
  const lines = [
    ...acrossLines(stage, places, edge.reference, wide),
    ...measureLines({ measures: step.measures.filter((one) => !drawn.includes(one)) }),
  ];
  picture.beneath(lines);
  const others = stage.plan.parts.joints?.marked.filter((one) => one.part === own.part).length ?? 1;
  // Cut alike from both edges, the pieces of a pair are the same.
  const isSided = places.some(({ across: [from, to] }) => {
    const near = (one: number, other: number): boolean => Math.abs(one - other) < 0.5;
    return !places.some(({ across }) => near(across[0], wide - to) && near(across[1], wide - from));
  });
  const said = marks.map(({ words }) => words).join(', ');
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: `${own.part}, ${on}, measured from the ${from}: ${said}. ${lines.map((one) => `${one}.`).join(' ')}`,
    caption: `${part.name}, ${on}${stands ? `, ${edge.reference} at the left` : `, ${from} at the left`}. Lengths are from the ${from}.${
      others > 1 && isSided ? ' The other one is its mirror image.' : ''
    }`,
    tells: drawn.map(({ label }) => label),
  };
}

const NOTHING =
  'its figure shows what is marked out on a part, and the joints table has nothing on a face of one. Write marking: and the part, such as marking: Side, or write another word under figure.';

/** `hole in Side from the bottom`: which cuts, and the rest. */
function askedOf({ figure }: BuiltStep): { readonly what: string; readonly of: string } {
  const of = (figure.of ?? '').toLowerCase();
  const [, what = '', rest = of] = /^(.+?) in (.+)$/.exec(of) ?? [];
  return { what, of: rest };
}

const isOnFace = ({ on, marks, what }: MarkedCut, wanted: string): boolean =>
  !/\bend$/.test(on) && marks.length > 1 && what.toLowerCase().startsWith(wanted);

function isNamed(of: string, part: string): boolean {
  const name = part.toLowerCase();
  return of === name || of.startsWith(`${name},`) || of.startsWith(`${name} from `);
}

const isFace = (of: string, { on }: MarkedCut): boolean => of.includes(`, ${on.toLowerCase()}`);

/** The face that is asked for, else the one on which most is marked out. */
function faceOf({ cuts }: MarkedPieces, of: string): string {
  const asked = cuts.find((cut) => isFace(of, cut));
  if (asked !== undefined) return asked.on;
  const counts = new Map<string, number>();
  for (const { on } of cuts) counts.set(on, (counts.get(on) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? '';
}

/** Sizes of the step that the figure or its lines bear. */
function sizesDrawn(stage: Stage, step: BuiltStep, places: readonly Place[]): readonly Measure[] {
  const lengths = places.flatMap(({ along, across, cut }) => [
    ...along,
    (along[0] + along[1]) / 2,
    ...across,
    (across[0] + across[1]) / 2,
    along[1] - along[0],
    across[1] - across[0],
    cut.depth,
    cut.diameter ?? cut.depth,
  ]);
  const drawn: Measure[] = [];
  for (const mm of lengths) {
    const found = measureAs(stage, step, mm, drawn);
    if (found !== undefined) drawn.push(found);
  }
  return drawn;
}

const opposite = (reference: string): string =>
  reference.replace(/^top|^bottom/, (word) => (word === 'top' ? 'bottom' : 'top'));

const AXIS: Readonly<Record<string, 'x' | 'y' | 'z'>> = {
  left: 'x',
  right: 'x',
  front: 'y',
  back: 'y',
  top: 'z',
  bottom: 'z',
};

/** How wide the face is, mm: along the axis that neither its length nor its own direction has. */
function acrossOf(piece: Piece, part: Part, on: string, end: string): number {
  const used = new Set([AXIS[on.split(' ')[0] ?? ''], AXIS[end.split(' ')[0] ?? '']]);
  const left = (['x', 'y', 'z'] as const).filter((axis) => !used.has(axis));
  const [axis] = left;
  if (left.length === 1 && axis !== undefined) return piece.to[axis] - piece.from[axis];
  return part.width;
}

/** What is written beside the piece, and at which place along it. */
interface Mark {
  readonly at: number;
  readonly words: string;
}

const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);

/** The middle of a hole, and where anything else begins, each once. */
function labelled(
  { format, source }: Stage,
  places: readonly Place[],
  long: number,
): readonly Mark[] {
  const unit = unitOf(source);
  const write = writer(format);
  const found = new Map<string, Mark & { readonly kind: string }>();
  for (const { along, cut } of places) {
    // What runs from end to end has no place along the piece.
    if (along[1] - along[0] > long * 0.97) continue;
    const at = cut.diameter === undefined ? along[0] : (along[0] + along[1]) / 2;
    const what = capital(cut.what.toLowerCase());
    const to = cut.diameter === undefined ? ` to ${write(along[1])}` : '';
    const key = `${what} ${write(at)}`;
    if (!found.has(key))
      found.set(key, { at, kind: what, words: `${what}: ${write(at)}${to} ${unit}` });
  }
  const all = [...found.values()].sort((a, b) => a.at - b.at);
  if (all.length <= MOST) return all;
  return all.filter((_, i) => i < 2 || i === all.length - 1);
}

interface Body {
  readonly stage: Stage;
  readonly part: Part;
  readonly places: readonly Place[];
  readonly marks: readonly Mark[];
  readonly long: number;
  readonly wide: number;
}

/** The cut as it lies on the face, in units. */
function cutsDrawn(
  { places, wide }: Body,
  put: (
    along: readonly [number, number],
    across: readonly [number, number],
  ) => readonly [number, number, number, number],
): string {
  return places
    .map(({ along, across, cut }) => {
      const [x, y, w, h] = put(along, [Math.max(0, across[0]), Math.min(wide, across[1])]);
      if (cut.diameter === undefined) return stroke('kb-new', box(x, y, w, h));
      return `<ellipse class="kb-new" fill="none" stroke="currentColor" cx="${(x + w / 2).toFixed(2)}" cy="${(y + h / 2).toFixed(2)}" rx="${Math.max(w / 2, 1.2).toFixed(2)}" ry="${Math.max(h / 2, 1.2).toFixed(2)}"/>`;
    })
    .join('');
}

/** A piece that stands, with what is marked out at its right. */
function drawUpright(picture: Picture, body: Body, from: string): void {
  const { stage, part, marks, long, wide } = body;
  const scale = Math.min(TALL / long, BROAD / wide);
  const [w, h] = [wide * scale, long * scale];
  const fromTop = from.startsWith('top');
  const y = (at: number): number => (fromTop ? at * scale : h - at * scale);
  const drawn = [
    wood(part.material, box(0, 0, w, h), stage.options.print === true, 5),
    cutsDrawn(body, (along, across) => [
      across[0] * scale,
      Math.min(y(along[0]), y(along[1])),
      (across[1] - across[0]) * scale,
      Math.abs(y(along[1]) - y(along[0])),
    ]),
  ].join('');
  sideNames(
    picture,
    { wide: w, high: h, body: drawn },
    marks.map(({ at, words }) => ({ words, spot: [w, y(at)] as Spot })),
  );
}

function drawLying(picture: Picture, body: Body): void {
  const { stage, part, marks, long, wide } = body;
  const scale = Math.min((FIGURE.wide - 2 * FIGURE.edge) / long, BROAD / wide);
  const [w, h] = [long * scale, wide * scale];
  const drawn = [
    wood(part.material, box(0, 0, w, h), stage.options.print === true, 5),
    cutsDrawn(body, (along, across) => [
      along[0] * scale,
      across[0] * scale,
      (along[1] - along[0]) * scale,
      (across[1] - across[0]) * scale,
    ]),
    ...marks.map(({ at }) => stroke('kb-dimension', line([at * scale, h], [at * scale, h + 8]))),
    marks[0] === undefined ? '' : size([0, h + 6], [marks[0].at * scale, h + 6]),
  ].join('');
  const names: readonly Named[] = marks.map(({ at, words }) => ({
    words,
    spots: [
      [at * scale, 0],
      [at * scale, h + 8],
    ],
  }));
  drawNamed(picture, names, { wide: w, high: h + 10, lines: [] }, drawn);
}

/** `Hole: 1/4 in wide, 3/8 in deep; middle 2 and 21 7/32 in from the back face` */
function acrossLines(
  { format, source }: Stage,
  places: readonly Place[],
  edge: string,
  wide: number,
): readonly string[] {
  const unit = unitOf(source);
  const write = writer(format);
  const groups = new Map<string, Set<string>>();
  for (const { along, across, cut } of places) {
    const sizes =
      cut.diameter === undefined
        ? `${write(along[1] - along[0])} × ${write(across[1] - across[0])} ${unit}, ${write(cut.depth)} ${unit} deep`
        : `${write(cut.diameter)} ${unit} across, ${write(cut.depth)} ${unit} deep`;
    const whole = across[1] - across[0] > wide * 0.97;
    const key = `${capital(cut.what.toLowerCase())}: ${sizes}`;
    const own = groups.get(key) ?? new Set();
    groups.set(key, own);
    if (!whole) {
      own.add(write(cut.diameter === undefined ? across[0] : (across[0] + across[1]) / 2));
    }
  }
  return [...groups].map(([key, at]) => {
    const all = [...at];
    const last = all.pop();
    if (last === undefined) return key;
    const said = all.length === 0 ? last : `${all.join(', ')} and ${last}`;
    const middle = /across,/.test(key) ? 'middle ' : '';
    return `${key}; ${middle}${said} ${unit} from the ${edge}`;
  });
}
