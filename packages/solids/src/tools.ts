import { clipped, otherSide } from './clip.ts';
import type { ToolCut } from './cuts.ts';
import { axisOf, type Face, isHigh, normalOf } from './faces.ts';
import { type Faceting, facetsOfArc } from './faceting.ts';
import { loopOf, type Pair } from './outline.ts';
import { type Frame, flatSection, prism, rectangle, type Section } from './prism.ts';
import { angle, fault, place, size, within } from './problem.ts';
import type { Skins } from './skins.ts';
import type { Convex, Triple } from './types.ts';
import { cross, dot, opposite, plus, radians, times, turned, unit, X, Y, Z } from './vectors.ts';

/** What a tool has to know of the piece it cuts. */
export interface Workpiece {
  /** The box around the blank. */
  readonly size: Triple;
  readonly skins: Skins;
  readonly faceting: Faceting;
}

/** The convex bodies that one cut takes away. */
export function toolsOf(cut: ToolCut, piece: Workpiece): readonly Convex[] {
  switch (cut.kind) {
    case 'groove':
    case 'dado':
      return [channel(cut, piece)];
    case 'rabbet':
      return [rabbet(cut, piece)];
    case 'cove':
      return [cove(cut, piece)];
    case 'arch':
      return [arch(cut, piece)];
    case 'dovetail':
      return [dovetail(cut, piece)];
    case 'tenon':
      return shoulders(cut, piece);
    case 'angled mortise':
    case 'angled hole':
      return [slanted(cut, piece)];
    default:
      return [sunk(cut, piece)];
  }
}

type Of<Kind extends ToolCut['kind']> = Extract<ToolCut, { kind: Kind }>;

const UNITS: readonly Triple[] = [X, Y, Z];

/** A face's own axes: the two of x, y and z that lie in it, and the way into the wood. */
interface FaceAxes {
  readonly origin: Triple;
  readonly first: number;
  readonly second: number;
  readonly into: Triple;
  /** How deep the piece is below it. */
  readonly room: number;
}

function axesOf(face: Face, whole: Triple): FaceAxes {
  const axis = axisOf(face);
  const [first, second] = [0, 1, 2].filter((one) => one !== axis) as [number, number];
  return {
    origin: isHigh(face) ? times(UNITS[axis]!, whole[axis]!) : [0, 0, 0],
    first,
    second,
    into: opposite(normalOf(face)),
    room: whole[axis]!,
  };
}

/** How deep a cut goes; not deeper than the piece. */
function depthOf(name: string, depth: number, room: number): number {
  if (size(`depth of the ${name}`, depth) <= room) return depth;
  throw fault(
    'depth',
  )`The ${name} is ${depth} deep and the piece only ${room} there; make it ${room} deep or less.`;
}

/** From where to where a cut runs. */
function runOf(
  { from, to }: { readonly from?: number; readonly to?: number },
  whole: number,
): readonly [number, number] {
  const [low, high] = [
    place('place where it begins', from ?? 0),
    place('place where it ends', to ?? whole),
  ];
  if (low < high) return [low, high];
  throw fault(
    'outside',
  )`The cut begins at ${low} and ends at ${high}; let it end further on than it begins.`;
}

/** A section across a face (along the face, into the wood) carried along it. */
function runAlong(
  section: Section,
  face: Face,
  across: number,
  run: readonly [number, number],
  { size: whole, skins }: Workpiece,
): Convex {
  const { origin, into } = axesOf(face, whole);
  const along = 3 - axisOf(face) - across;
  const frame: Frame = { origin, u: UNITS[across]!, v: into, w: UNITS[along]! };
  return prism(section, frame, run, skins);
}

function channel(cut: Of<'groove' | 'dado'>, piece: Workpiece): Convex {
  const { first, second, room } = axesOf(cut.face, piece.size);
  const [along, across] = cut.kind === 'groove' ? [first, second] : [second, first];
  const at = place(`place of the ${cut.kind}`, cut.at);
  const width = size(`width of the ${cut.kind}`, cut.width);
  const depth = depthOf(cut.kind, cut.depth, room);
  const run = runOf(cut, piece.size[along]!);
  return runAlong(rectangle([at, 0], [at + width, depth]), cut.face, across, run, piece);
}

function dovetail(cut: Of<'dovetail'>, piece: Workpiece): Convex {
  const { first, second, room } = axesOf(cut.face, piece.size);
  const [along, across] = cut.run === 'along' ? [first, second] : [second, first];
  const at = place('place of the dovetail', cut.at);
  const half = size('width of the dovetail', cut.width) / 2;
  const depth = depthOf('dovetail', cut.depth, room);
  const inside =
    half + depth * Math.tan(radians(angle('angle of the dovetail', cut.angle, -60, 60)));
  if (!(inside > 0)) {
    throw fault(
      'angle',
    )`The sides of the dovetail meet before its depth of ${depth}; make it wider or less steep.`;
  }
  const section = flatSection([
    [at - half, 0],
    [at + half, 0],
    [at + inside, depth],
    [at - inside, depth],
  ]);
  return runAlong(section, cut.face, across, runOf(cut, piece.size[along]!), piece);
}

/** The frame of an edge: u along the first face away from the edge, v into the first face, w along the edge. */
function edgeFrame(
  [face, other]: readonly [Face, Face],
  { size: whole }: Workpiece,
): { readonly frame: Frame; readonly along: number; readonly rooms: Pair } {
  const [one, two] = [axisOf(face), axisOf(other)];
  if (one === two) {
    throw fault('edge')`There is no edge between ${face} and ${other}; name two faces that meet.`;
  }
  const along = 3 - one - two;
  const origin = plus(axesOf(face, whole).origin, axesOf(other, whole).origin);
  const frame: Frame = {
    origin,
    u: opposite(normalOf(other)),
    v: opposite(normalOf(face)),
    w: UNITS[along]!,
  };
  return { frame, along, rooms: [whole[two]!, whole[one]!] };
}

function rabbet(cut: Of<'rabbet'>, piece: Workpiece): Convex {
  const { frame, along, rooms } = edgeFrame(cut.edge, piece);
  const width = size('width of the rabbet', cut.width);
  if (width > rooms[0]) {
    throw fault(
      'depth',
    )`The rabbet is ${width} wide and the face only ${rooms[0]}; make it narrower.`;
  }
  const depth = depthOf('rabbet', cut.depth, rooms[1]);
  const run = runOf(cut, piece.size[along]!);
  return prism(rectangle([0, 0], [width, depth]), frame, run, piece.skins);
}

function cove(cut: Of<'cove'>, piece: Workpiece): Convex {
  const { frame, along, rooms } = edgeFrame(cut.edge, piece);
  const radius = size('radius', cut.radius);
  const most = Math.min(...rooms);
  if (radius > most) {
    throw fault(
      'radius',
    )`The cove has a radius of ${radius} and the face is only ${most} wide; make it ${most} or less.`;
  }
  const arc = arcPoints(radius, 0, Math.PI / 2, piece.faceting);
  const section: Section = {
    points: [[0, 0], ...arc],
    runs: [0, ...arc.slice(1).map(() => 1), 2],
    curved: [false, true, false],
    flowing: [],
  };
  return prism(section, frame, runOf(cut, piece.size[along]!), piece.skins);
}

/** Points of an arc, both ends included and exact at quarter turns. */
function arcPoints(radius: number, from: number, turn: number, faceting: Faceting): Pair[] {
  const count = facetsOfArc(radius, turn, faceting);
  return Array.from({ length: count + 1 }, (_, index): Pair => {
    const [sin, cos] = turned(((from + (turn * index) / count) * 180) / Math.PI);
    return [radius * cos, radius * sin];
  });
}

function arch(cut: Of<'arch'>, piece: Workpiece): Convex {
  const { first, second, room } = axesOf(cut.face, piece.size);
  const whole = piece.size[first]!;
  const rise = size('rise', cut.rise);
  const chord = size('chord', cut.chord ?? whole);
  const at = place('middle of the arch', cut.at ?? whole / 2);
  if (rise > chord / 2) {
    throw fault(
      'arc',
    )`The arch rises ${rise} over a chord of ${chord}, and no arc rises more than half its chord; let it rise ${chord / 2} or less.`;
  }
  if (chord > whole) {
    throw fault(
      'arc',
    )`The arch is ${chord} long and the piece only ${whole}; make its chord ${whole} or less.`;
  }
  if (rise >= room) {
    throw fault(
      'arc',
    )`The arch rises ${rise} and the piece is only ${room} wide there; let it rise less.`;
  }
  const section = segment(chord, rise, piece.faceting);
  const moved = { ...section, points: section.points.map(([x, y]): Pair => [x + at, y]) };
  return runAlong(moved, cut.face, first, [0, piece.size[second]!], piece);
}

/** A part of a circle above its chord, the middle of the chord at 0. */
function segment(chord: number, rise: number, faceting: Faceting): Section {
  const half = chord / 2;
  const radius = (half ** 2 + rise ** 2) / (2 * rise);
  const reach = 2 * Math.atan2(rise, half);
  const count = facetsOfArc(radius, 2 * reach, faceting);
  const points = Array.from({ length: count + 1 }, (_, index): Pair => {
    if (index === 0) return [half, 0];
    if (index === count) return [-half, 0];
    const turn = reach - (2 * reach * index) / count;
    return [radius * Math.sin(turn), radius * Math.cos(turn) - (radius - rise)];
  });
  return {
    points,
    runs: points.map((_, index) => (index < count ? 0 : 1)),
    curved: [true, false],
    flowing: [],
  };
}

/** A section sunk into a face around a point, square to it or leaning. */
function sunk(cut: Of<'mortise' | 'hole' | 'slot' | 'pocket'>, piece: Workpiece): Convex {
  const axes = axesOf(cut.face, piece.size);
  const [u, v] = [UNITS[axes.first]!, UNITS[axes.second]!];
  const [sinT, cosT] = turned(angle('turn', cut.turn ?? 0, -360, 360));
  const lean = 'lean' in cut ? angle('lean', cut.lean ?? 0, -STEEPEST, STEEPEST) : 0;
  const [sinL, cosL] = turned(lean);
  const length = plus(times(u, cosT), times(v, sinT));
  const across = plus(times(u, 0 - sinT), times(v, cosT));
  const [first, second] = [place('place', cut.at[0]), place('place', cut.at[1])];
  const frame: Frame = {
    origin: plus(axes.origin, plus(times(u, first), times(v, second))),
    u: plus(times(length, cosL), times(axes.into, 0 - sinL)),
    v: across,
    w: plus(times(axes.into, cosL), times(length, sinL)),
  };
  const { section, half } = sectionOf(cut, piece.faceting);
  // A leaning cut begins so far outside that its mouth is open all over.
  const slant = half * Math.abs(Math.tan(radians(lean)));
  const deep =
    cut.depth === undefined
      ? axes.room / cosL + slant
      : size(`depth of the ${cut.kind}`, cut.depth);
  if (cut.depth !== undefined) depthOf(cut.kind, cut.depth * cosL, axes.room);
  return prism(section, frame, [0 - slant, deep], piece.skins);
}

const STEEPEST = 75;

/** A section around 0, and half of what it measures along its length. */
function sectionOf(
  cut: Of<'mortise' | 'hole' | 'slot' | 'pocket'>,
  faceting: Faceting,
): { readonly section: Section; readonly half: number } {
  if (cut.kind === 'hole') {
    const half = size('diameter', cut.diameter) / 2;
    const loop = holeLoop(cut, faceting);
    return { section: centred(loop, [half, half]), half };
  }
  const length = size(`length of the ${cut.kind}`, cut.length);
  const width = size(`width of the ${cut.kind}`, cut.width);
  const middle: Pair = [length / 2, width / 2];
  const isRound = cut.kind === 'slot' || (cut.kind === 'mortise' && cut.round === true);
  if (!isRound) return { section: rectangle([-middle[0], -middle[1]], middle), half: middle[0] };
  if (length < width) {
    throw fault(
      'radius',
    )`The ${cut.kind} is ${length} long and ${width} wide, and its round ends need as much length as width; make it longer or narrower.`;
  }
  const loop = loopOf({ kind: 'rounded', length, width, radius: width / 2 }, faceting);
  return { section: centred(loop, middle), half: middle[0] };
}

/** The rim of a hole, as fine as it asks for. */
function holeLoop(
  { diameter, tolerance }: Of<'hole' | 'angled hole'>,
  faceting: Faceting,
): Section {
  const own =
    tolerance === undefined ? faceting.tolerance : within('tolerance in mm', tolerance, 0.001, 10);
  return loopOf({ kind: 'disc', diameter }, { ...faceting, tolerance: own });
}

const centred = (section: Section, [x, y]: Pair): Section => ({
  ...section,
  points: section.points.map(([a, b]): Pair => [a - x, b - y]),
});

function shoulders(cut: Of<'tenon'>, piece: Workpiece): Convex[] {
  const [long, wide, thick] = piece.size;
  const length = size('length of the tenon', cut.length);
  const [width, thickness] = [
    size('width of the tenon', cut.width),
    size('thickness of the tenon', cut.thickness),
  ];
  const at = cut.at ?? [(wide - width) / 2, (thick - thickness) / 2];
  const [y, z] = [place('place of the tenon', at[0]), place('place of the tenon', at[1])];
  if (length >= long) {
    throw fault('depth')`The tenon is ${length} long and the piece only ${long}; make it shorter.`;
  }
  if (y < 0 || z < 0 || y + width > wide || z + thickness > thick) {
    throw fault(
      'outside',
    )`The tenon of ${width} by ${thickness} reaches beyond the piece of ${wide} by ${thick}; make it smaller or move it.`;
  }
  const run: readonly [number, number] = cut.end === 'start' ? [0, length] : [long - length, long];
  const frame: Frame = { origin: [0, 0, 0], u: Y, v: Z, w: X };
  const around: readonly (readonly [Pair, Pair])[] = [
    [
      [0, 0],
      [y, thick],
    ],
    [
      [y + width, 0],
      [wide, thick],
    ],
    [
      [0, 0],
      [wide, z],
    ],
    [
      [0, z + thickness],
      [wide, thick],
    ],
  ];
  const blocks = around.filter(([low, high]) => low[0] < high[0] && low[1] < high[1]);
  if (cut.shoulder === undefined) {
    return blocks.map(([low, high]) => prism(rectangle(low, high), frame, run, piece.skins));
  }
  // Blocks of the whole piece, of which what lies beyond the shoulders goes.
  const beyond = otherSide(cut.shoulder);
  return blocks.flatMap(([low, high]) => {
    const block = prism(rectangle(low, high), frame, [0, long], piece.skins);
    return clipped(block, beyond, { surface: piece.skins.add(), curved: false }) ?? [];
  });
}

/** A section carried any way into the wood. */
function slanted(
  cut: Of<'angled mortise' | 'angled hole'>,
  { faceting, skins }: Workpiece,
): Convex {
  const isHole = cut.kind === 'angled hole';
  const depth = size(`depth of the ${isHole ? 'hole' : 'mortise'}`, cut.depth);
  const u = isHole ? acrossOf(cut.into) : cut.along;
  const frame: Frame = { origin: cut.from, u, v: cross(cut.into, u), w: cut.into };
  if (isHole) {
    const half = size('diameter', cut.diameter) / 2;
    const loop = holeLoop(cut, faceting);
    return prism(centred(loop, [half, half]), frame, [0, depth], skins);
  }
  const [length, width] = [
    size('length of the mortise', cut.length),
    size('width of the mortise', cut.width),
  ];
  const middle: Pair = [length / 2, width / 2];
  return prism(rectangle([-middle[0], -middle[1]], middle), frame, [0, depth], skins);
}

/** A way square to another one. */
function acrossOf(way: Triple): Triple {
  const least = UNITS.reduce((one, other) =>
    Math.abs(dot(other, way)) < Math.abs(dot(one, way)) ? other : one,
  );
  return unit(cross(least, way));
}
