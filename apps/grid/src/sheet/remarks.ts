import type { CellView } from '@kerfbook/workbook';
import { roomToRun } from '../session/running-over.ts';
import type { Session } from '../session/session.ts';
import { letterSize, linesOf, lookOf, type measurer } from '../session/words-measure.ts';

/** A note that is too long for one line of what can be seen: over how many lines of which room, px, it stands. */
export interface Remark {
  /** 1: on one line that goes on beyond what can be seen. */
  readonly lines: number;
  readonly room: number;
}

/**
 * So many lines a note may take; one that needs more ends there with an ellipsis. In a narrow column, where that is no
 * way to read it, it does not push the rows under it out of sight: on a phone two lines have room in a usual row.
 */
const MOST_LINES = 6;
const MOST_NARROW = 2;
/** A line is not broken into shorter ones than this, in sizes of its letters. */
const LEAST_ROOM = 12;
/** What a cell's edges, and the end of what can be seen, take of the room for words, px; as the style sheet has it. */
const EDGES = 17;
const END = 14;

/**
 * How a note stands that what is free beside it does not hold; undefined for one that it does, and for all other
 * cells. It goes by what can be seen before anything is scrolled, so that no row changes its height while one scrolls.
 * @param text what stands in the cell
 * @param seen how much of the sheet can be seen, px
 */
export function remarkOf(
  cell: CellView,
  text: string,
  seen: number,
  session: Session,
  measure: ReturnType<typeof measurer>,
): Remark | undefined {
  if (cell.role !== 'note' || seen === 0) return undefined;
  const run = roomToRun(cell, session);
  if (run === undefined) return undefined;
  const look = lookOf(cell);
  const widthOf = (one: string): number => measure(one, look);
  const rest = seen - run.from - END;
  const own = run.room - EDGES;
  const free = Math.floor(Math.min(own, rest));
  if (widthOf(text) <= free) return undefined;
  const narrow = LEAST_ROOM * letterSize(look);
  if (rest < own && rest < narrow) return { lines: 1, room: own };
  const most = free < narrow ? MOST_NARROW : MOST_LINES;
  return { lines: Math.min(most, linesOf(text, free, widthOf)), room: free };
}
