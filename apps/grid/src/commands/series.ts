import { type CellDocument, MONTHS } from '@kerfbook/workbook';

/** What the cells after a line of cells hold: the value of the first, the second and so on after it. */
export type Following = (k: number) => NonNullable<CellDocument['value']>;

const DAYS = [
  ['Monday', 'Mon'],
  ['Tuesday', 'Tue'],
  ['Wednesday', 'Wed'],
  ['Thursday', 'Thu'],
  ['Friday', 'Fri'],
  ['Saturday', 'Sat'],
  ['Sunday', 'Sun'],
] as const;

/** Words that follow each other and begin again: a month of which nothing tells its length is a whole word. */
const ROUNDS: readonly (readonly string[])[] = [MONTHS, DAYS].flatMap((words) => [
  words.map(([full]) => full),
  words.map(([, short]) => short),
]);

/**
 * How a line of values goes on (G42): numbers and dates by their even step, dates by months where they stand a
 * month apart, days of the week, months, and words that end in a number. `undefined`: it is no series.
 */
export function seriesOf(cells: readonly CellDocument[]): Following | undefined {
  const values = cells.map(({ value }) => value);
  if (values.every((value) => typeof value === 'number')) {
    const dates = cells.every(({ quantity }) => quantity === 'date');
    return (dates ? monthly(values) : undefined) ?? stepping(values, dates);
  }
  if (!values.every((value) => typeof value === 'string')) return undefined;
  return around(values) ?? counted(values);
}

function stepping(numbers: readonly number[], dates: boolean): Following | undefined {
  const step = dates && numbers.length === 1 ? 1 : evenStep(numbers);
  const last = numbers.at(-1) ?? 0;
  return step === undefined ? undefined : (k) => cut(last + step * (k + 1));
}

/** The step from number to number, where it is the same all along. */
function evenStep(numbers: readonly number[]): number | undefined {
  const [first = 0, second] = numbers;
  if (second === undefined) return undefined;
  const step = second - first;
  const size = Math.max(...numbers.map(Math.abs), 1);
  const even = numbers.every((n, i) => Math.abs(n - first - i * step) <= 1e-9 * size);
  return even ? step : undefined;
}

/** Sums of decimal steps without the noise of binary fractions. */
const cut = (n: number): number => Number(n.toPrecision(14));

const DAY = 86_400_000;
/** Days are counted from 1899-12-30. */
const NULL_DATE = Date.UTC(1899, 11, 30);

const monthLength = (month: number): number =>
  new Date(Date.UTC(2000, 0, 1)).setUTCFullYear(Math.floor(month / 12), (month % 12) + 1, 0);

/** Dates that stand a number of months apart, on one day of the month or each on its last. */
function monthly(numbers: readonly number[]): Following | undefined {
  if (numbers.length < 2 || !numbers.every(Number.isInteger)) return undefined;
  const read = numbers.map((days) => {
    const at = new Date(NULL_DATE + days * DAY);
    const month = at.getUTCFullYear() * 12 + at.getUTCMonth();
    const day = at.getUTCDate();
    return { month, day, last: day === new Date(monthLength(month)).getUTCDate() };
  });
  const step = evenStep(read.map(({ month }) => month));
  if (step === undefined || step === 0) return undefined;
  const day = Math.max(...read.map((one) => one.day));
  const isEnd = read.every(({ last }) => last);
  // The 31st is the last of a shorter month; any other day is the same in every month.
  if (!isEnd && !read.every((one) => one.day === day || (one.last && one.day < day)))
    return undefined;
  const from = read.at(-1)?.month ?? 0;
  return (k) => {
    const month = from + step * (k + 1);
    const end = monthLength(month);
    const most = new Date(end).getUTCDate();
    return Math.round((end - NULL_DATE) / DAY) - (isEnd ? 0 : Math.max(0, most - day));
  };
}

/** Days of the week and months, in full or in short, in capitals as the last of them. */
function around(words: readonly string[]): Following | undefined {
  for (const round of ROUNDS) {
    const places = words.map((word) =>
      round.findIndex((one) => one.toLowerCase() === word.trim().toLowerCase()),
    );
    if (places.includes(-1)) continue;
    const step = turn(places, round.length);
    const [last = 0, word = ''] = [places.at(-1), words.at(-1)?.trim()];
    if (step === undefined) return undefined;
    const by = capitalsOf(word);
    return (k) => {
      const at = (((last + step * (k + 1)) % round.length) + round.length) % round.length;
      return by(round[at] ?? '');
    };
  }
  return undefined;
}

/** The even step from word to word in a round; one on where there is but one word. */
function turn(places: readonly number[], round: number): number | undefined {
  const steps = places.slice(1).map((place, i) => (place - (places[i] ?? 0) + round) % round);
  const [step = 1] = steps;
  return steps.every((one) => one === step) ? step : undefined;
}

function capitalsOf(word: string): (text: string) => string {
  if (word === word.toLowerCase()) return (text) => text.toLowerCase();
  return word === word.toUpperCase() ? (text) => text.toUpperCase() : (text) => text;
}

/** `shelf 1`, `shelf 2`: words that end in a number. */
function counted(values: readonly string[]): Following | undefined {
  const endings = values.map((value) => /^(.*?)(\d{1,9})$/s.exec(value));
  const words = endings[0]?.[1];
  if (words === undefined || endings.some((ending) => ending?.[1] !== words)) return undefined;
  const numbers = endings.map((ending) => Number(ending?.[2]));
  const step = numbers.length === 1 ? 1 : evenStep(numbers);
  const last = numbers.at(-1) ?? 0;
  return step === undefined ? undefined : (k) => `${words}${last + step * (k + 1)}`;
}
