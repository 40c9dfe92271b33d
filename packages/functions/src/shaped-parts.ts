import { boundsOf } from '@kerfbook/solids';
import { readForm } from '@kerfbook/wood';
import { joinedTable } from './joints/of-table.ts';
import { finishedWhole } from './shaped/finished.ts';
import { madePiece, pieceStanding } from './shaped/made.ts';
import { exactMeetings } from './shaped/meeting.ts';
import { roomOf, withMiddles } from './shaped/standing.ts';

/** What formulas need of shapes; the app loads it after the first sheet is there. */
export const SHAPED = {
  boundsOf,
  exactMeetings,
  finishedWhole,
  joinedTable,
  madePiece,
  pieceStanding,
  readForm,
  roomOf,
  withMiddles,
} as const;
