import { pickBoards, planLengths, planPieces, planSheets } from '@kerfbook/cutting';

/**
 * What the functions that plan ask. Held in one place, so that a benchmark can count the time that plans take by
 * themselves.
 */
export const planner = { pickBoards, planLengths, planPieces, planSheets };
