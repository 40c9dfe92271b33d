import {
  type Bounds,
  movedBy,
  placed,
  ShapedPieces,
  type Solid,
  sharedRooms,
  type Triple,
  touching,
} from '@kerfbook/solids';
import type { BlockMeeting, Corner } from '@kerfbook/wood';

const boxes = new ShapedPieces(200);

/** An upright box as a solid, to be held against others; undefined where a side is too little to be cut, mm. */
export function boxSolid(low: Triple, high: Triple): Solid | undefined {
  const answer = boxes.of({
    blank: {
      kind: 'box',
      length: high[0] - low[0],
      width: high[1] - low[1],
      thickness: high[2] - low[2],
    },
  });
  return answer.ok ? placed(answer.solid, movedBy(low)) : undefined;
}

/** A piece as the box around it, and as it is shaped where it is no box. */
interface BlockOrSolid {
  readonly low: Corner;
  readonly high: Corner;
  readonly solid?: Solid | undefined;
}

/**
 * Meetings of boxes, those of shaped pieces as these really meet: how far they reach into each other is then that of
 * the largest room they share, and they are left out where they are apart.
 * @param tolerance what is no deeper in, or no further apart, touches, mm
 */
export function exactMeetings(
  pieces: readonly BlockOrSolid[],
  meetings: readonly BlockMeeting[],
  tolerance: number,
): readonly BlockMeeting[] {
  return meetings.flatMap((meeting) => {
    const [one, other] = [pieces[meeting.first]!, pieces[meeting.second]!];
    if (one.solid === undefined && other.solid === undefined) return [meeting];
    const first = one.solid ?? boxSolid(one.low, one.high);
    const second = other.solid ?? boxSolid(other.low, other.high);
    if (first === undefined || second === undefined) return [meeting];
    const [room] = sharedRooms(first, second, tolerance).rooms;
    if (room !== undefined) return [{ ...meeting, reach: across(room.bounds, 0) }];
    const place = touching(first, second, tolerance);
    // What touches lies within the gap of both: a plane that both lie in is as thick as the gap.
    return place === undefined ? [] : [{ ...meeting, reach: across(place, tolerance) }];
  });
}

const across = ({ low, high }: Bounds, less: number): Corner => [
  high[0] - low[0] - less,
  high[1] - low[1] - less,
  high[2] - low[2] - less,
];
