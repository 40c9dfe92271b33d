/** What a cell's value can be wrong about: codes that never change their meaning. */
const CELL_FAULTS = {
  E1: (word: string, near?: string) =>
    `There is no function called ${word}.${near === undefined ? '' : ` Did you mean ${near}?`}`,
  E2: (word: string, near?: string) =>
    `There is no cell called ${word}.${near === undefined ? ' Name one, or check the spelling.' : ` Did you mean ${near}?`}`,
  E3: (word: string) =>
    `${word} would be the address of a cell far outside the sheet. A name of this kind needs an underscore: ${word.replace(/(\d+)$/, '_$1')}.`,
  E4: (path: string) => `This formula needs its own result: ${path}. Change one of these cells.`,
  E5: () => 'A cell this formula refers to is no longer there. Point it to another cell.',
  E6: () => 'This divides by zero or by an empty cell. Give the divisor a number.',
  E7: (where: string, text: string) =>
    `${where} holds the words "${text}"; a number is needed there.`,
  E8: () => 'A number is needed where this formula finds words or something else.',
  E9: () => 'A number is outside what this function takes, or the result is too large.',
  E10: () => 'What this formula looks for is not there.',
  E11: (name: string, least: number, most: number, got: number) =>
    `${name} takes ${least === most ? least : `${least} to ${most}`} ${most === 1 ? 'argument' : 'arguments'}; it got ${got}.`,
  E12: () => 'The results need more empty cells below or beside this one. Clear them first.',
  E13: () => 'The value and the step to round to have different signs. Give both the same sign.',
  E14: () => 'A function in this formula has too many or too few arguments.',
  E15: (sheet: string, near?: string) =>
    `There is no sheet called ${sheet}.${near === undefined ? '' : ` Did you mean ${near}?`}`,
  E16: (name: string, argument: string, got: string) =>
    `${argument} of ${name} is ${got}; it takes one cell or value, not a range.`,
  E18: (most: number) =>
    `The text would be longer than ${most} characters, which is all a cell holds.`,
  E19: (kind: string, heads: string) =>
    `The table of ${kind} of this workbook has no column headed ${heads}. Head one so.`,
  E20: (kind: string, heads: string, text: string) =>
    `The table of ${kind} of this workbook has "${text.slice(0, 40)}" under ${heads}; a number is needed there, or nothing.`,
  E21: () =>
    'What this formula needs is still loading; its result will appear by itself. If it does not, reload the page.',
  E23: (most: number) =>
    `The ranges of this formula have more than ${most} cells together, which is the most. Name the part that is used.`,
  E24: (most: number) =>
    `Working this out takes more than ${most} steps, which is the most. Give it smaller ranges or numbers.`,
  E25: (most: number) =>
    `The formulas of this workbook read more than ${most} cells together, which is the most; this one and others are left out. Name smaller ranges.`,
  E26: (cells: number, most: number) =>
    `The results fill ${cells} cells; ${most} is the most for one formula. Use a smaller range.`,
  E27: () =>
    'The results of whole columns or rows have no fixed size. Name the cells that are used, such as A1:A200.',
  E28: () => 'It has several results, and a check has one, yes or no. AND or OR makes one of them.',
  E29: (word: string, now: string) => `${word} is called ${now} now. Write ${now} in its place.`,
  E30: (where: string) => `It is worked out from ${where}; look there.`,
  E17: () => 'This formula cannot be worked out. Write it in smaller steps.',
} as const;

type Code = keyof typeof CELL_FAULTS;

/**
 * Marks a message as one of our sentences while it travels through the engine, whose own messages
 * are for developers and are never shown.
 */
export const PERSON_MARK = '§';

export function cellSentence<C extends Code>(
  code: C,
  ...words: Parameters<(typeof CELL_FAULTS)[C]>
): string {
  const sentence = CELL_FAULTS[code] as (...words: unknown[]) => string;
  return sentence(...words);
}

export function person<C extends Code>(
  code: C,
  ...words: Parameters<(typeof CELL_FAULTS)[C]>
): string {
  return PERSON_MARK + cellSentence(code, ...words);
}
