/** A line in which what was understood is taken out, so that what is left can be told. */
export class Rest {
  #text: string;

  constructor(text: string) {
    this.#text = text;
  }

  get text(): string {
    return this.#text;
  }

  /** Takes out what stands from one place to another: the places of the rest stay. */
  take(start: number, end: number): void {
    this.#text = this.#text.slice(0, start) + TAKEN.repeat(end - start) + this.#text.slice(end);
  }

  /** Takes out the first match, and answers with it. */
  takeMatch(pattern: RegExp): RegExpExecArray | undefined {
    const found = pattern.exec(this.#text);
    if (found === null) return undefined;
    this.take(found.index, found.index + found[0].length);
    return found;
  }

  /** What is left, piece by piece. */
  pieces(): readonly string[] {
    return this.#text.split(/\u0001+/);
  }
}

const TAKEN = '\u0001';

const PIECES =
  "pcs?|pieces?|ea|each|off|nos?|sheets?|boards?|planks?|sticks?|lengths?|panels?|blanks?|req'?d|required|needed|units?|x|of";
const NUMBER_WORDS: Readonly<Record<string, number>> = {
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  twelve: 12,
  pair: 2,
  dozen: 12,
};

/** So many of them hold wherever they stand. */
const SURE = 4;
/** Ways of saying how many, the surest first; each with the number in its first group that is there. */
const WAYS: readonly RegExp[] = [
  /(?<![\p{L}\d])(?:qty|quantity|count|pcs|no|nr|number|how many)\b\.?\s*[:=]?\s*(\d{1,5})(?![\d./])(?:\s*(?:pcs?|pieces?|ea|each)\b\.?)?/iu,
  /(?<![\d./])(\d{1,5})\s*(?:qty|quantity|count)\b\.?/iu,
  /(?<![\d./-])(\d{1,5})\s*@\s*/u,
  /[([{]\s*[x×]?\s*(\d{1,5})\s*[x×]?\s*(?:(?:pcs?|pieces?|ea|each|off|required|req'?d)\.?\s*)?[)\]}]/iu,
  new RegExp(
    `(?<![\\d./])(\\d{1,5})\\s*-?\\s*(?:${PIECES})(?![\\p{L}\\d])\\.?(?:\\s+(?:of|each|ea)\\b\\.?)*`,
    'iu',
  ),
  /^\s*(\d{1,5})\s*[x×]/iu,
  /(?<![\p{L}\d])[x×]\s*(\d{1,5})(?![\d./])/iu,
];
const WORDS = new RegExp(
  `(?<![\\p{L}\\d])(?:a\\s+)?(${Object.keys(NUMBER_WORDS).join('|')})(?:\\s+(?:of|pieces|boards|sheets))?(?=\\s)`,
  'iu',
);
/** `4 legs …`: a number at the very beginning, before words or sizes. */
const LEADING = /^\s*(\d{1,5})(?![\d./"'%])(?:\s*[-:.);]\s*|\s+|(?=\u0001))/u;
/** `Top 1 1800 x …`: a number by itself right before the sizes, or after them. */
const BESIDE =
  /(?:^|\s)[-=:]?\s*(\d{1,5})\s*[:,=-]?\s*(?=\u0001)|\u0001\s*[-,:=]?\s*(\d{1,5})\s*(?=$|\u0001|\s[-,]\s|,)|[;,]\s*(\d{1,5})\s*$/u;
const STRAY =
  /(?<![\p{L}\d])(?:ea|each|apiece|pcs?|pieces?|off|qty|quantity|sheets|boards|planks)(?![\p{L}\d])\.?/giu;

/** A count that says that it is one, also right before a size: `qty 2 3/4 x 3 x 28`. */
export const takeSureCount = (rest: Rest): number | undefined => firstOf(rest, WAYS.slice(0, SURE));

/** How many a line says there are, taken out of it; undefined where it does not say. */
export function takeCount(rest: Rest): number | undefined {
  return firstOf(rest, WAYS.slice(SURE)) ?? besideSizes(rest);
}

function firstOf(rest: Rest, ways: readonly RegExp[]): number | undefined {
  for (const way of ways) {
    const found = rest.takeMatch(way);
    const many = found?.slice(1).find((one) => one !== undefined);
    if (many !== undefined) return Number(many);
  }
  return undefined;
}

function besideSizes(rest: Rest): number | undefined {
  for (const way of [LEADING, BESIDE]) {
    const found = way.exec(rest.text);
    const many = found?.slice(1).find((one) => one !== undefined);
    if (found === null || many === undefined) continue;
    const start = found.index + found[0].indexOf(many);
    rest.take(start, start + many.length);
    return Number(many);
  }
  const word = rest.takeMatch(WORDS)?.[1]?.toLowerCase();
  return word === undefined ? undefined : NUMBER_WORDS[word];
}

/** Takes out words that only go with a count: `ea.`, `pcs`. */
export function takeStray(rest: Rest): void {
  for (const found of [...rest.text.matchAll(STRAY)])
    rest.take(found.index, found.index + found[0].length);
}
