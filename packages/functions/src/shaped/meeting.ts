import { type Bounds, boxSolid, sharedRooms, touching } from '@kerfbook/solids';
import type { BlockMeeting, Corner } from '@kerfbook/wood';
import type { BlockOrSolid } from './standing.ts';

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
    const [room] = sharedRooms(first, second, tolerance).rooms;
    if (room !== undefined) return [{ ...meeting, reach: across(room.bounds, 0) }];
    const place = touching(first, second, tolerance);
    // What touches lies within the gap of both: a plane that both lie in is as thick as the gap.
    return place === undefined ? [] : [{ ...meeting, reach: apart(across(place, tolerance)) }];
  });
}

/** Faces that touch around a corner, as a tenon's in its mortise, span room in which nothing is shared. */
function apart(reach: Corner): Corner {
  const thin = Math.min(...reach);
  const axis = reach.indexOf(thin);
  return thin <= 0 ? reach : (reach.map((one, i) => (i === axis ? 0 : one)) as never);
}

const across = ({ low, high }: Bounds, less: number): Corner => [
  high[0] - low[0] - less,
  high[1] - low[1] - less,
  high[2] - low[2] - less,
];
