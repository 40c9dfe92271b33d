import type { Quantity, UnitSystem } from '@kerfbook/wood';
import { sayDate, writeDate } from './dates.ts';
import { QUANTITY_WORDS } from './words.ts';

/** What a sentence needs to know of the cell an entry was typed into. */
export interface Taker {
  readonly quantity: Quantity | undefined;
  readonly system: UnitSystem;
  /** Sign of the workbook's money. */
  readonly money: string;
}

type Takes = string | ((taker: Taker) => string);

const bySystem =
  (us: string, metric: string) =>
  ({ system }: Taker): string =>
    system === 'us' ? us : metric;
const amount = ({ money }: Taker): string => `an amount such as 12.50 or ${money}12.50`;

/** What a cell of a quantity takes, with an example, as the end of a sentence. */
const TAKES: Record<Quantity, Takes> = {
  number: 'a number such as 12 or 1.5',
  count: 'a count such as 4',
  ratio: 'a number such as 0.45, or 45 %',
  percent: 'a percentage such as 30 or 30 %',
  moisture: 'a percentage such as 8 or 8 %',
  humidity: 'a percentage such as 35 or 35 %',
  length: bySystem(
    `a length such as 33 3/16, 5' 6-3/8" or 1685 mm`,
    `a length such as 1685 mm, 1.2 m or 5' 6-3/8"`,
  ),
  area: bySystem('an area such as 24 ft² or 2.2 m²', 'an area such as 2.2 m² or 24 ft²'),
  volume: bySystem('a volume such as 120 in³ or 2 ft³', 'a volume such as 0.05 m³ or 800 cm³'),
  liquid: bySystem('an amount such as 12 fl oz, 1 qt or 500 mL', 'an amount such as 500 mL or 2 L'),
  boardfeet: 'board feet such as 24 or 24 bd ft',
  mass: bySystem('a weight such as 85 lb or 38 kg', 'a weight such as 38 kg or 85 lb'),
  temperature: bySystem('a temperature such as 68F or 20 °C', 'a temperature such as 20C or 68 °F'),
  angle: 'an angle such as 45 or 45°',
  force: bySystem('a force such as 200 lb or 900 N', 'a force such as 900 N or 200 lb'),
  pressure: bySystem('a pressure such as 150 psi or 1 MPa', 'a pressure such as 1 MPa or 150 psi'),
  load_per_length: bySystem('a load such as 5 lb/in or 1 N/mm', 'a load such as 1 N/mm'),
  coverage: bySystem(
    'a coverage such as 400 ft²/gal or 10 m²/L',
    'a coverage such as 10 m²/L or 400 ft²/gal',
  ),
  movement_rate: 'a rate such as 0.00369, or 0.369 %',
  money: amount,
  money_per_boardfoot: amount,
  money_per_hour: amount,
  duration: 'a time such as 2 h, 90 min or 1 h 30 min',
  date: 'a date such as 2026-11-25 or 25 Nov 2026',
  text: 'words',
  logical: 'TRUE or FALSE',
};

function takes(taker: Taker): string {
  const words = TAKES[taker.quantity ?? 'number'];
  return typeof words === 'string' ? words : words(taker);
}

/** Noise of binary fractions taken off: 0.07 × 100 is 7. */
const asPercent = (value: number): string => String(Number(value.toPrecision(12)));

const short = (text: string): string => {
  const line = text.trim().replace(/\s+/g, ' ');
  return line.length > 40 ? `${[...line].slice(0, 40).join('')}…` : line;
};
const quoted = (text: string): string => `"${short(text)}"`;

/**
 * Why an entry could not be read, each with a code that never changes its meaning. `Q0` is an
 * entry that was read and is not allowed ({@link ALLOW_SENTENCES}). A retired code stays retired.
 */
export const ENTRY_FAULTS = {
  /** Nothing that the cell takes. */
  Q1: (text: string, taker: Taker) =>
    `${quoted(text)} cannot be read here; this cell takes ${takes(taker)}.`,
  /** A number with a unit of another quantity. */
  Q2: (text: string, is: Quantity, taker: Taker) =>
    `${quoted(text)} is ${QUANTITY_WORDS[is]}; this cell takes ${takes(taker)}.`,
  /** A nominal lumber size where one length belongs. */
  Q3: (size: string, thickness: string, width: string) =>
    `${quoted(size)} is a nominal size; dressed, it is ${thickness} thick and ${width} wide. Type one of these, or =DRESSED_THICKNESS("${size}") or =DRESSED_WIDTH("${size}").`,
  /** A number that can be read two ways. */
  Q4: (text: string, because: string, meant: string) =>
    `${quoted(text)} can be read two ways: ${because}. Type ${short(meant)} if that is what you mean.`,
  Q5: (most: number) =>
    `This entry is too long: a cell holds ${most.toLocaleString('en-US')} characters. Split it over several cells.`,
  Q6: (text: string) => `${quoted(text)} is too large a number to work with. Type a smaller one.`,
  Q7: (text: string) =>
    `The fraction in ${quoted(text)} has 0 under its line. Type a fraction such as 3/4.`,
  Q8: () => 'This entry holds characters that cannot be shown. Type it again without them.',
  /** An amount of another currency. */
  Q9: (text: string, sign: string, taker: Taker) =>
    `${quoted(text)} is in ${sign}; this workbook counts in ${taker.money}. Type the amount in ${taker.money}.`,
  /** Two or more sizes where one length belongs. */
  Q10: (text: string, taker: Taker) =>
    `${quoted(text)} is more than one size; this cell takes ${takes(taker)}. Type one of them here.`,
  /** A percentage under one, which may be a share of one. */
  Q11: (value: number) =>
    `Is this ${asPercent(value)} % or ${asPercent(value * 100)} %? Type ${asPercent(value)}% or ${asPercent(value * 100)}.`,
  /** Two numbers of which each may be the month. */
  Q12: (text: string, first: number, second: number) =>
    `Is ${quoted(text)} ${sayDate(first)} or ${sayDate(second)}? Type ${writeDate(first)} or ${writeDate(second)}.`,
  /** A fraction that is on no tape, and may be a day. */
  Q13: (text: string, fraction: string, day: number) =>
    `Is ${quoted(text)} a fraction or ${sayDate(day)}? Type ${fraction} or ${writeDate(day)}.`,
  /** A day that the calendar does not have. */
  Q14: (text: string, has: string) => `${quoted(text)} is no day of the calendar: ${has}.`,
} as const;

/** What makes an entry readable two ways, for `Q4`. */
export const TWO_WAYS = {
  comma: 'a comma only parts digits in threes',
  dash: 'a dash with a space beside it may be a minus sign',
} as const;

/** Why an entry was not read, as a code that stays. */
export type EntryCode = keyof typeof ENTRY_FAULTS;

export interface Unread {
  readonly kind: 'unread';
  readonly code: EntryCode;
  readonly says: string;
  /** Entries of which each says one of the things that may have been meant. */
  readonly choices?: readonly string[];
}

/** A percentage under one, typed without its unit. */
export const unreadPercent = (value: number): Unread => ({
  ...unread('Q11', value),
  choices: [`${asPercent(value)}%`, `${asPercent(value * 100)}%`],
});

/** A date of which either number may be the month. */
export const unreadDays = (text: string, [first, second]: readonly [number, number]): Unread => ({
  ...unread('Q12', text, first, second),
  choices: [writeDate(first) ?? '', writeDate(second) ?? ''],
});

/** A fraction that may be a day. */
export function unreadDay(text: string, day: number): Unread {
  const [over = 0, under = 1] = text.split('/').map(Number);
  // As a mixed number, which is no day: 0 3/14, 4 2/3.
  const rest = over % under;
  const whole = Math.floor(over / under);
  const fraction = rest === 0 ? `${whole}` : `${whole} ${rest}/${under}`;
  return { ...unread('Q13', text, fraction, day), choices: [fraction, writeDate(day) ?? ''] };
}

export function unread<C extends EntryCode>(
  code: C,
  ...words: Parameters<(typeof ENTRY_FAULTS)[C]>
): Unread {
  const sentence = ENTRY_FAULTS[code] as (...words: unknown[]) => string;
  return { kind: 'unread', code, says: sentence(...words) };
}

/** `Q0`: why a value that was read is not allowed in its cell. */
export const ALLOW_SENTENCES = {
  range: (value: string, range: string) => `${value} is outside what this cell takes: ${range}.`,
  whole: (value: string) => `${value} is not a whole number; this cell takes whole numbers.`,
  list: (value: string, some: readonly string[], more: number) =>
    `${quoted(value)} is not one of the choices of this cell: ${some.map(short).join('; ')}${more > 0 ? ` and ${more} more` : ''}.`,
  /** Something typed in a cell with choices that is a slip of one of them. */
  nearest: (value: string, nearest: string, noun: string) =>
    `No ${noun} called ${quoted(value)}; the nearest is ${short(nearest)}. Take it?`,
  /** Several choices have what was typed in their names. */
  several: (value: string, some: readonly string[], noun: string) =>
    `${quoted(value)} is in the names of ${some.length} ${noun}s: ${some.slice(0, SOME).map(short).join('; ')}${some.length > SOME ? ` and ${some.length - SOME} more` : ''}. Which one?`,
  unlike: (value: string, noun: string) =>
    `No ${noun} called ${quoted(value)}, and none is like it. Choose from the list.`,
} as const;

/** How many choices a question names. */
const SOME = 3;
