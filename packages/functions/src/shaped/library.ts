import { boundsOf } from '@kerfbook/solids';
import { readForm } from '@kerfbook/wood';
import { finishedWhole } from './finished.ts';
import { isShaped, madePiece, pieceStanding } from './made.ts';
import { exactMeetings } from './meeting.ts';
import { roomOf, wholeMiddle } from './standing.ts';

/** What formulas need of shapes; the app loads it after the first sheet is there. */
export const SHAPED = {
  boundsOf,
  exactMeetings,
  finishedWhole,
  isShaped,
  madePiece,
  pieceStanding,
  readForm,
  roomOf,
  wholeMiddle,
} as const;
