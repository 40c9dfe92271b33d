import { blockMeetings, Fault } from '@kerfbook/wood';
import { TOLERANCE } from '../shaped/tolerance.ts';
import { angled, angledMeet } from './angled.ts';
import { channels } from './channels.ts';
import { dowels, looseTenons, pocketHoles, screws } from './fasteners.ts';
import type { JointKind } from './kinds.ts';
import { dovetails, fingers, halfLap } from './laps.ts';
import type { Piece } from './piece.ts';
import type { Joint } from './read.ts';
import { JOINT_SAYS } from './says.ts';
import { single } from './single.ts';
import { extent, type Meet, meetOf, type Span, Stand } from './stand.ts';
import { tenons } from './tenons.ts';
import { usualLength, usualThickness } from './usual.ts';
import { thinWalls } from './walls.ts';
import { Desk, type JointOptions, type JointWork } from './work.ts';

/** Most places where joints meet that are worked out: past it a change would cost its pace. */
export const MOST_JOINTS = 2000;

type Maker = (meet: Meet, joint: Joint, desk: Desk) => void;

/** Joints of pieces that reach into each other, and of pieces that only touch. */
const REACHING: Readonly<Partial<Record<JointKind, Maker>>> = {
  'mortise and tenon': tenons,
  'through mortise and tenon': tenons,
  'haunched mortise and tenon': tenons,
  'tongue and groove': channels,
  groove: channels,
  'stopped groove': channels,
  dado: channels,
  'stopped dado': channels,
  rabbet: channels,
  'half lap': halfLap,
  'finger joint': fingers,
  dovetails,
};
const TOUCHING: Readonly<Partial<Record<JointKind, Maker>>> = {
  'loose tenon': looseTenons,
  dowels,
  screws,
  'pocket holes': pocketHoles,
};

/**
 * What joints cut into pieces where they stand. Every copy of the part that meets one of the other is joined: four
 * legs and two aprons give four joints of the aprons. What is wrong with one is said at its row, once for all its
 * places, and the others go on.
 */
export function resolveJoints(
  pieces: readonly Piece[],
  joints: readonly Joint[],
  options: JointOptions,
): JointWork {
  const desk = new Desk(pieces, options);
  if (joints.length === 0) return desk.done();
  const stands = pieces.map((piece, index) => Stand.of(index, piece));
  const byName = new Map<string, Stand[]>();
  for (const stand of stands) {
    if (stand === undefined) continue;
    const known = byName.get(stand.name);
    if (known === undefined) byName.set(stand.name, [stand]);
    else known.push(stand);
  }
  const meets = meetsOf(stands);
  let places = 0;
  for (const joint of joints) desk.begin(joint);
  for (const joint of joints) {
    const lacks = [joint.part, ...(joint.into === undefined ? [] : [joint.into])].find(
      (name) => !byName.has(name),
    );
    if (lacks !== undefined) {
      const column = lacks === joint.part ? 'part' : 'into';
      desk.say(joint, JOINT_SAYS.nowhere(lacks), column);
      continue;
    }
    const found = joint.into === undefined ? [] : (meets.get(keyOf(joint.part, joint.into)) ?? []);
    places += Math.max(
      1,
      found.length,
      joint.into === undefined ? (byName.get(joint.part)?.length ?? 0) : 0,
    );
    if (places > MOST_JOINTS) {
      desk.say(joint, JOINT_SAYS.many(MOST_JOINTS));
      break;
    }
    if (joint.into === undefined) {
      for (const stand of byName.get(joint.part) ?? []) {
        desk.join(joint, [stand], () => single(stand, joint, desk));
      }
    } else between(joint, joint.into, found, desk);
  }
  thinWalls(desk, stands);
  return desk.done();
}

const keyOf = (part: string, into: string): string => `${part}\n${into}`;

/** All that meet, by the names of both, each way round. */
function meetsOf(stands: readonly (Stand | undefined)[]): ReadonlyMap<string, readonly Meet[]> {
  const all = stands.filter((stand) => stand !== undefined);
  const blocks = all.map(({ isSquare, room, piece: { from, to } }): Span => {
    if (isSquare) return room;
    return { low: [from.x, from.y, from.z], high: [to.x, to.y, to.z] };
  });
  const found = new Map<string, Meet[]>();
  for (const { first, second } of blockMeetings(blocks, TOLERANCE)) {
    const [one, other] = [all[first], all[second]];
    if (one === undefined || other === undefined) continue;
    for (const [a, b] of [
      [one, other],
      [other, one],
    ] as const) {
      const meet = a.isSquare && b.isSquare ? meetOf(a, b) : angledMeet(a, b);
      if (meet === undefined) continue;
      const key = keyOf(a.name, b.name);
      const known = found.get(key);
      if (known === undefined) found.set(key, [meet]);
      else known.push(meet);
    }
  }
  return found;
}

function between(joint: Joint, into: string, found: readonly Meet[], desk: Desk): void {
  const touching = found.filter((meet) => meet.touching !== undefined);
  const reaching = found.filter((meet) => meet.touching === undefined);
  const [reach, touch] = [REACHING[joint.kind], TOUCHING[joint.kind]];
  const [mine, others] = reach === undefined ? [touching, reaching] : [reaching, touching];
  const make = reach ?? touch;
  if (mine.length > 0) {
    for (const meet of mine) {
      const isAngled = !meet.a.isSquare || !meet.b.isSquare;
      desk.join(joint, [meet.a, meet.b], () => (isAngled ? angled : make)?.(meet, joint, desk));
    }
    return;
  }
  const [other] = others;
  if (other === undefined) {
    desk.say(joint, JOINT_SAYS.apart(joint.part, into));
  } else if (reach === undefined) {
    const deepest = Math.min(...([0, 1, 2] as const).map((axis) => extent(other.room, axis)));
    desk.say(joint, JOINT_SAYS.reaches(joint.kind, joint.part, into, desk.format(deepest)));
  } else {
    const by = usualReach(joint, other);
    desk.say(
      joint,
      JOINT_SAYS.onlyTouch(
        joint.kind,
        joint.part,
        into,
        by === undefined ? undefined : desk.format(by),
      ),
    );
  }
}

/** How far a tenon usually reaches in, where the row asks for one and there is wood for it. */
function usualReach(joint: Joint, { a, b, touching }: Meet): number | undefined {
  if (touching === undefined || !joint.kind.endsWith('tenon')) return undefined;
  const { thickness } = a.piece.part;
  if (!a.isSquare || !b.isSquare) return undefined;
  const into = b.size[b.own(touching)] ?? 0;
  if (joint.kind === 'through mortise and tenon') return into;
  try {
    return usualLength(joint.thickness ?? usualThickness(thickness), into);
  } catch (error) {
    if (error instanceof Fault) return undefined;
    throw error;
  }
}
