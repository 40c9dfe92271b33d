import { Carving } from './carve.ts';
import { clipped, type Plane, type Skin } from './clip.ts';
import type { ConvexCut, EdgeName } from './cuts.ts';
import { axisOf, type Face, isHigh } from './faces.ts';
import { type Faceting, facetsOfArc } from './faceting.ts';
import { inFrom, sideBetween } from './prism.ts';
import { angle, fault, place, type ShapeFault, size } from './problem.ts';
import type { Skins } from './skins.ts';
import type { Convex, Facet, Triple } from './types.ts';
import { dot, lengthOf, minus, plus, times, turned, unit } from './vectors.ts';

/** A blank while it is being shaped. */
export interface Shaping {
  readonly body: Convex;
  /** The box around the blank. */
  readonly size: Triple;
  readonly skins: Skins;
  readonly faceting: Faceting;
}

/** Makes one cut that leaves the blank convex. */
export function shapedBy(cut: ConvexCut, shaping: Shaping): Convex {
  switch (cut.kind) {
    case 'taper':
      return tapered(cut, shaping);
    case 'end':
      return endCut(cut, shaping);
    case 'chamfer': {
      const width = size('width of the chamfer', cut.width);
      const height = size('height of the chamfer', cut.height ?? width);
      return alongEdges('chamfer', cut.edge, shaping, chamfer(width, height));
    }
    case 'roundover': {
      const radius = size('radius', cut.radius);
      return alongEdges('rounded edge', cut.edge, shaping, roundover(radius, shaping.faceting));
    }
  }
}

/** What is kept of the body; that nothing is, is a problem of the cut. */
function kept(body: Convex, plane: Plane, skin: Skin): Convex {
  const left = clipped(body, plane, skin);
  if (left === undefined) throw takesAll();
  return left;
}

const takesAll = (): ShapeFault =>
  fault(
    'nothing',
  )`This cut takes all of the piece; expected it to leave some wood, so make it smaller.`;

/**
 * An edge of more flat facets keeps a maker waiting. What is told by the usual facets, and has room on a piece of
 * wood, stays below.
 */
const MOST_FACETS = 12_000;
const MOST_FACETS_SAID = MOST_FACETS.toLocaleString('en-US');

const tooFine = (name: string): ShapeFault =>
  fault(
    'range',
  )`The ${name} would be made of more than ${MOST_FACETS_SAID} flat facets; allow a larger tolerance or fewer facets to a full turn.`;

const AXIS_NAMES = ['length', 'width', 'thickness'] as const;

function tapered(
  cut: Extract<ConvexCut, { kind: 'taper' }>,
  { body, size: whole, skins }: Shaping,
): Convex {
  const [length] = whole;
  const from = place('beginning of the taper', cut.from);
  if (from < 0 || from >= length) {
    throw fault(
      'taper',
    )`The taper begins at ${from}, which is not within the length of ${length}; let it begin from 0 up to there.`;
  }
  const faces = [...new Set(cut.faces)];
  if (faces.length === 0 || faces.some((face) => axisOf(face) === 0)) {
    throw fault(
      'edge',
    )`A taper leans faces along the piece; name one or more of front, back, bottom and top.`;
  }
  return faces.reduce((rest, face) => {
    const axis = axisOf(face);
    const to = typeof cut.to === 'number' ? cut.to : cut.to[axis - 1]!;
    const room = whole[axis]!;
    size(`size at the end of the taper`, to);
    if (to > room) {
      throw fault(
        'taper',
      )`The taper ends at ${to}, more than the ${AXIS_NAMES[axis]!} of ${room}; let it end at less.`;
    }
    if (to === room) return rest;
    const off = (room - to) / faces.filter((other) => axisOf(other) === axis).length;
    return kept(rest, leaning(face, off, cut, whole), { surface: skins.add(face), curved: false });
  }, body);
}

/** The plane of a face from where its taper begins to the narrow end, where it has lost `off`. */
function leaning(
  face: Face,
  off: number,
  { from, towards }: { from: number; towards: 'start' | 'end' },
  whole: Triple,
): Plane {
  const axis = axisOf(face);
  const long = whole[0] - from;
  const along = towards === 'end' ? 1 : -1;
  const across = isHigh(face) ? 1 : -1;
  const normal: [number, number, number] = [(along * off) / Math.hypot(long, off), 0, 0];
  normal[axis] = (across * long) / Math.hypot(long, off);
  const begins: [number, number, number] = [towards === 'end' ? from : whole[0] - from, 0, 0];
  begins[axis] = isHigh(face) ? whole[axis]! : 0;
  return { normal, offset: dot(normal, begins) };
}

const STEEPEST = 80;

function endCut(
  cut: Extract<ConvexCut, { kind: 'end' }>,
  { body, size: whole, skins }: Shaping,
): Convex {
  const mitre = angle('mitre', cut.mitre ?? 0, -STEEPEST, STEEPEST);
  const bevel = angle('bevel', cut.bevel ?? 0, -STEEPEST, STEEPEST);
  const [sinM, cosM] = turned(mitre);
  const [sinB, cosB] = turned(bevel);
  const along = cut.end === 'end' ? 1 : -1;
  const normal: Triple = [along * cosB * cosM, cosB * sinM, sinB];
  const offset =
    (cut.end === 'end' ? normal[0] * whole[0] : 0) +
    Math.min(0, normal[1] * whole[1]) +
    Math.min(0, normal[2] * whole[2]);
  return kept(body, { normal, offset }, { surface: skins.add(cut.end), curved: false });
}

/** Two facets that meet in an edge, and the edge as the first runs along it. */
interface Meeting {
  readonly one: Facet;
  readonly other: Facet;
  readonly from: Triple;
  readonly to: Triple;
}

/** The planes that shape an edge, from where its facets meet. */
interface EdgeForm {
  /** How much of each facet goes, square to the edge. */
  readonly takes: (meeting: Meeting) => readonly [number, number];
  readonly planes: (meeting: Meeting) => readonly Plane[];
  readonly isRound: boolean;
}

/** Shapes every edge there is between two faces, or around one. */
function alongEdges(
  name: string,
  edge: EdgeName,
  { body, skins }: Shaping,
  form: EdgeForm,
): Convex {
  const meetings = meetingsOf(body, edge, skins);
  if (meetings.length === 0) {
    throw fault(
      'edge',
    )`There is no edge between ${edge[0]} and ${edge[1]} for a ${name}; name two faces that meet, or one and “around”.`;
  }
  const skinOf = edgeSkins(meetings, skins, form.isRound);
  for (const meeting of meetings) checkRoom(name, meeting, form);
  const planes = meetings.map((meeting) => form.planes(meeting));
  if (planes.reduce((sum, { length }) => sum + length, 0) > MOST_FACETS) throw tooFine(name);
  const carving = new Carving(body);
  meetings.forEach((meeting, index) => {
    for (const plane of planes[index]!) {
      if (!carving.cut(plane, skinOf(meeting))) throw takesAll();
    }
  });
  const rest = carving.body;
  const taken = edge
    .filter((face) => face !== 'around')
    .find((face) => !hasFace(rest, face, skins));
  if (edge[1] === 'around' && taken !== undefined) {
    throw fault(
      'radius',
    )`The ${name} takes all of ${taken}; expected it to leave some of that face, so make it smaller.`;
  }
  return rest;
}

const hasFace = (body: Convex, face: Face, skins: Skins): boolean =>
  body.facets.some(({ surface }) => skins.faceOf(surface) === face);

function meetingsOf(body: Convex, [face, other]: EdgeName, skins: Skins): Meeting[] {
  const isFace = ({ surface }: Facet): boolean => skins.faceOf(surface) === face;
  const isOther = ({ surface }: Facet): boolean => {
    const there = skins.faceOf(surface);
    return other === 'around' ? there !== face : there === other;
  };
  const others = body.facets.filter(isOther);
  return body.facets.filter(isFace).flatMap((one) =>
    others.flatMap((two) => {
      const side = sideBetween(one, two);
      return side === undefined ? [] : [{ one, other: two, from: side[0], to: side[1] }];
    }),
  );
}

/** One surface for all that runs along the same two surfaces; those along one curve flow into each other. */
function edgeSkins(
  meetings: readonly Meeting[],
  skins: Skins,
  isRound: boolean,
): (meeting: Meeting) => Skin {
  const made = new Map<string, { skin: Skin; one: number; other: number }>();
  const key = ({ one, other }: Meeting): string => `${one.surface} ${other.surface}`;
  for (const meeting of meetings) {
    if (made.has(key(meeting))) continue;
    const { one, other } = meeting;
    const surface = skins.add();
    const skin = { surface, curved: isRound || one.curved || other.curved };
    if (isRound) {
      skins.flow(surface, one.surface);
      skins.flow(surface, other.surface);
    }
    for (const before of made.values()) {
      const isAlong = before.one === one.surface && skins.areFlowing(before.other, other.surface);
      if (isAlong) skins.flow(surface, before.skin.surface);
    }
    made.set(key(meeting), { skin, one: one.surface, other: other.surface });
  }
  return (meeting) => made.get(key(meeting))!.skin;
}

/** An edge cannot take more of a facet than reaches from it. */
function checkRoom(name: string, meeting: Meeting, form: EdgeForm): void {
  const { one, other, from, to } = meeting;
  const [first, second] = form.takes(meeting);
  const rooms = [roomFrom(one, from, to), roomFrom(other, to, from)] as const;
  for (const [takes, room] of [
    [first, rooms[0]],
    [second, rooms[1]],
  ] as const) {
    if (takes > room + ROUNDING) {
      throw fault(
        'radius',
      )`The ${name} takes ${takes} of a face that is only ${room} wide there; make it smaller.`;
    }
  }
}

const ROUNDING = 1e-6;

function roomFrom({ points, normal }: Facet, from: Triple, to: Triple): number {
  const into = inFrom(normal, from, to);
  return Math.max(...points.map((point) => dot(minus(point, from), into)));
}

function chamfer(width: number, height: number): EdgeForm {
  return {
    isRound: false,
    takes: () => [width, height],
    planes: ({ one, other, from, to }) => {
      const first = plus(from, times(inFrom(one.normal, from, to), width));
      const second = plus(from, times(inFrom(other.normal, to, from), height));
      return [planeThrough(first, second, from, to)];
    },
  };
}

/** The plane along a side through two points, with the side outside. */
function planeThrough(first: Triple, second: Triple, from: Triple, to: Triple): Plane {
  const normal = unit(inFrom(minus(second, first), from, to));
  const offset = dot(normal, first);
  return dot(normal, from) > offset
    ? { normal, offset }
    : { normal: times(normal, -1), offset: 0 - offset };
}

/** An arc that leaves both faces without a crease, as chords between points of it. */
function roundover(radius: number, faceting: Faceting): EdgeForm {
  const turnOf = ({ one, other }: Meeting): number =>
    Math.atan2(
      lengthOf(minus(one.normal, other.normal)),
      lengthOf(plus(one.normal, other.normal)),
    ) * 2;
  return {
    isRound: true,
    takes: (meeting) => {
      const takes = radius * Math.tan(turnOf(meeting) / 2);
      return [takes, takes];
    },
    planes: (meeting) => {
      const { one, from, to } = meeting;
      const turn = turnOf(meeting);
      const takes = radius * Math.tan(turn / 2);
      const middle = minus(
        plus(from, times(inFrom(one.normal, from, to), takes)),
        times(one.normal, radius),
      );
      const count = facetsOfArc(radius, turn, faceting);
      const step = turn / count;
      // Square to the first face's normal, towards the other's.
      const aside = times(inFrom(one.normal, from, to), -1);
      return Array.from({ length: count }, (_, index) => {
        const at = step * (index + 0.5);
        const normal = plus(times(one.normal, Math.cos(at)), times(aside, Math.sin(at)));
        return { normal, offset: dot(normal, middle) + radius * Math.cos(step / 2) };
      });
    },
  };
}
