/** Of letters: 9 pt and a little more where the picture is as wide as a page of A4 within its margins. */
export const LETTERS = 18;
/** What a letter takes of its height, of Source Sans 3. */
const LETTER_WIDE = 0.54;
/** What stays free between two labels side by side, of their height; where letters are usual 6 units are enough. */
const BETWEEN = 1.2;

/** How wide words are in letters of this height, units of the picture. */
export const wideIn = (says: string, size: number): number => says.length * size * LETTER_WIDE;

/** Whether words have room, with what stays free beside them. */
export const fits = (says: string, room: number, size: number): boolean =>
  wideIn(says, size) + (size > LETTERS ? size * BETWEEN : 6) <= room;
