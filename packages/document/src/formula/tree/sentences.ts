/** What can be wrong with the text of a formula: codes that never change their meaning. */
const FORMULA_FAULTS = {
  F1: (length: number, most: number) =>
    `This formula has ${length} characters, each reference counted as two; ${most} is the most. Split it over several cells.`,
  F2: (depth: number, most: number) =>
    `This formula nests ${depth} brackets deep; ${most} is the most. Put the inner part in a cell of its own.`,
  F3: (count: number, most: number) =>
    `This formula has ${count} operators; ${most} is the most. Split it over several cells.`,
  F5: (count: string, most: number) => `REPT repeats ${count} times; ${most} is the most.`,
  F6: (opened: number) =>
    `The bracket opened at character ${opened} is not closed: put ) where it ends.`,
  F7: (at: number) =>
    `The ) at character ${at} closes nothing: take it out, or open a bracket before it.`,
  F8: (at: number) => `The text begun with " at character ${at} is not closed: put " at its end.`,
  F9: (at: number, seen: string) =>
    `Arguments are separated by commas; there is a ${seen} at character ${at}. Put a comma there.`,
  F10: (at: number, seen: string) =>
    `Something is missing before ${seen} at character ${at}: a number, a cell or a name belongs there.`,
  F11: (at: number, seen: string) =>
    `Something is missing between what stands before character ${at} and ${seen}: an operator such as + or a comma.`,
  F12: () => 'The formula ends too early: a number, a cell or a name belongs after the last sign.',
  F13: (at: number, seen: string) =>
    /^\p{Sc}$/u.test(seen)
      ? `${seen} at character ${at} has no meaning in a formula. Leave it out: 37.50 is money where the cell is for money.`
      : `${seen} at character ${at} has no meaning in a formula.`,
  F14: () =>
    'There is nothing after the = sign. Write what the cell should come to, for example =2*3.',
  F15: () =>
    'This formula cannot be read. Compare its brackets, commas and quotation marks with an example from the function list.',
  F19: (seen: string) =>
    `Between { and } stand numbers and words only, and ${seen} is neither. Put each into a cell and use the cells.`,
} as const;

type Code = keyof typeof FORMULA_FAULTS;

export interface FormulaFault {
  readonly code: Code;
  readonly says: string;
  /** Where it is in the text, counted from 0, when there is one place. */
  readonly index?: number;
}

export function formulaFault<C extends Code>(
  code: C,
  words: Parameters<(typeof FORMULA_FAULTS)[C]>,
  index?: number,
): FormulaFault {
  const sentence = FORMULA_FAULTS[code] as (...words: unknown[]) => string;
  return { code, says: sentence(...words), ...(index === undefined ? {} : { index }) };
}
