/** What is looked through to find a workbook. */
export interface Findable {
  readonly title: string;
  /** Whatever else is said of it: what it is for, tags, woods, joints, its kind. */
  readonly words: readonly string[];
  /** As its card says it: `48 × 14 × 18 in`. */
  readonly size: string | undefined;
}

/** What a maker asks for: words that all have to be there, and a size that others are the nearer to the better. */
export interface Wish {
  readonly words: readonly string[];
  /** The size looked for, mm. */
  readonly size: number | undefined;
  /** As it was typed, with its unit. */
  readonly sizeSays: string | undefined;
}

const MM: Readonly<Record<string, number>> = {
  mm: 1,
  millimeter: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  inch: 25.4,
  inche: 25.4,
  '"': 25.4,
  ft: 304.8,
  foot: 304.8,
  feet: 304.8,
  "'": 304.8,
};

/** A number with a unit behind it: `6 ft`, `72in`, `1 1/2 m`, `6'`. */
const SIZE =
  /(?<![\w./])(\d+ \d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?)\s*(mm|millimeters?|cm|m|in|inch|inches|ft|foot|feet|"|')(?![\w])/g;

/** What was typed, taken apart. */
export function wishOf(typed: string): Wish {
  let size: number | undefined;
  let sizeSays: string | undefined;
  const rest = typed
    .toLowerCase()
    .replaceAll(/[′’]/g, "'")
    .replaceAll(/[″”]/g, '"')
    .replaceAll(SIZE, (all, number: string, unit: string) => {
      // Feet and inches behind each other are one length.
      const mm = numberOf(number) * (MM[unit] ?? MM[singular(unit)] ?? 1);
      size = (size ?? 0) + mm;
      sizeSays = sizeSays === undefined ? all : `${sizeSays} ${all}`;
      return ' ';
    });
  return { words: wordsIn(rest), size, sizeSays };
}

/**
 * Those that have every word that was asked for, at the beginning of a word of theirs. Where a size was asked for too,
 * the nearest come first, and those without one last: nearly every workbook takes another size.
 */
export function found<T extends Findable>(all: readonly T[], wish: Wish): readonly T[] {
  const matching = all.filter((one) => {
    const has = [one.title, ...one.words, one.size ?? ''].flatMap(wordsIn);
    return wish.words.every((word) => has.some((other) => other.startsWith(word)));
  });
  const { size } = wish;
  if (size === undefined) return matching;
  const off = new Map(matching.map((one) => [one, nearest(one.size, size)]));
  return [...matching].sort((a, b) => less(off.get(a), off.get(b)));
}

/** Infinity less infinity is no number. */
function less(a = Number.POSITIVE_INFINITY, b = Number.POSITIVE_INFINITY): number {
  return a === b ? 0 : a - b;
}

/** How far the nearest of the lengths of a size lies from one, as a share of it. */
function nearest(size: string | undefined, wanted: number): number {
  const lengths = size === undefined ? [] : lengthsOf(size);
  return Math.min(...lengths.map((length) => Math.abs(Math.log(length / wanted))));
}

/** The lengths of `48 × 14 × 18 in`, mm. */
export function lengthsOf(size: string): readonly number[] {
  const [, lengths = '', unit = 'mm'] = /^(.*?)\s*(mm|in)$/.exec(size) ?? [];
  return lengths
    .split('×')
    .map((one) => numberOf(one.trim()) * (MM[unit] ?? 1))
    .filter((one) => one > 0);
}

/** `1 1/2` → 1.5 */
function numberOf(text: string): number {
  return text
    .split(' ')
    .map((part) => {
      const [over = '', under] = part.split('/');
      return under === undefined ? Number(over) : Number(over) / Number(under);
    })
    .reduce((sum, part) => sum + part, 0);
}

/** Words without their marks; one of several things is found by the word for one. */
function wordsIn(text: string): readonly string[] {
  return text
    .toLowerCase()
    .split(/[^\p{L}\p{N}/.]+/u)
    .map((word) => singular(word.replaceAll(/^\.+|\.+$/g, '')))
    .filter((word) => word !== '' && !SMALL.has(word));
}

/** Words that say nothing of what is looked for. */
const SMALL = new Set(['a', 'an', 'the', 'of', 'for', 'in', 'and', 'with', 'my']);

/** The word for one of them: as far as that needs no dictionary. */
function singular(word: string): string {
  if (/(?:shelves|halves)$/.test(word)) return word.replace(/ves$/, 'f');
  if (/(?:ch|sh|x|ss)es$/.test(word)) return word.slice(0, -2);
  return word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word;
}
