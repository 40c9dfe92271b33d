import type { Quantity } from '@kerfbook/wood';

/** What a cell of a quantity takes, with an example, as the end of a sentence. */
const TAKES: Partial<Record<Quantity, string>> = {
  length: `a length such as 33 3/16, 5' 6-3/8" or 1685 mm`,
  area: 'an area such as 24 ft² or 2.2 m²',
  volume: 'a volume such as 120 in³',
  liquid: 'a volume such as 12 fl oz, 1 qt or 500 mL',
  mass: 'a weight such as 85 lb or 38 kg',
  temperature: 'a temperature such as 68F or 20 °C',
  moisture: 'a percentage such as 8 or 8 %',
  humidity: 'a percentage such as 35 or 35 %',
  percent: 'a percentage such as 30 or 30 %',
  ratio: 'a number such as 0.45, or 45 %',
  money: 'an amount such as 12.50 or $12.50',
  money_per_boardfoot: 'an amount such as 12.50 or $12.50',
  money_per_hour: 'an amount such as 45 or $45',
  duration: 'a time such as 2 h, 90 min or 1 h 30 min',
  date: 'a date written 2026-11-25',
  count: 'a number such as 4',
  angle: 'an angle such as 45 or 45°',
  force: 'a force such as 200 lbf or 900 N',
  pressure: 'a pressure such as 150 psi or 1 MPa',
  boardfeet: 'a number of board feet such as 24 or 24 bd ft',
};

export const takes = (quantity: Quantity | undefined): string =>
  (quantity === undefined ? undefined : TAKES[quantity]) ?? 'a number such as 12 or 1.5';

const short = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);

/** Why an entry could not be read: codes that never change their meaning. */
export const ENTRY_FAULTS = {
  Q1: (text: string, quantity: Quantity | undefined) =>
    `"${short(text)}" is not read as a value; this cell takes ${takes(quantity)}.`,
  Q2: (text: string, unit: string, quantity: Quantity) =>
    `"${short(text)}" is in ${unit}; this cell takes ${takes(quantity)}.`,
  Q3: (text: string, thickness: string) =>
    `${text} is a nominal size, not a length. Type the dressed size, or =DRESSED_WIDTH("${text}") or =DRESSED_THICKNESS("${text}"): a 2x4 is ${thickness} in.`,
  Q4: (text: string, meant: string) =>
    `"${short(text)}" could be read two ways. Write ${meant} with a point, or group digits in threes.`,
  Q5: () => 'This entry is longer than a cell can hold: 8,192 characters.',
  Q6: (text: string) => `"${short(text)}" is too large a number to work with.`,
  Q7: (text: string) => `The fraction in "${short(text)}" divides by zero.`,
  Q8: () => 'This entry holds characters that cannot be shown. Type it again without them.',
} as const;

export type EntryCode = keyof typeof ENTRY_FAULTS;
