/** A sentence with places for what differs from size to size: one translation of it serves them all. */
export interface PlacedSentence {
  /** `{part} × {1}: fence {2} from the blade` */
  readonly key: string;
  /** What stands in each place, by its name. */
  readonly fills: ReadonlyMap<string, readonly PlaceRun[]>;
}

/** A stretch of what stands in a place. */
export type PlaceRun = { readonly kind: 'name' | 'rest'; readonly words: string };

const UNIT = String.raw`(?:bd ft|fl oz|in²|ft²|m²|in³|ft³|m³|mm|cm|ft|lbf|lb|kg|oz|gal|mL|psi|min|in(?![ \u00a0]+(?:a|all|an|each|front|its|one|place|step|the|this|turn|which)\b)|m|L|h|d)(?![\p{L}²³])|%|°[FC]?`;
const FEET = String.raw`\d+'(?: \d+(?: \d+\/\d+)?")?`;
const NUMBER = String.raw`(?<![\p{L}\d#/.]|\p{L}-)[-−$€£Ø]?(?:${FEET}|\d[\d,]*(?<!,)(?:\.\d+)?(?:[ \u00a0]\d+\/\d+|\/\d+)?)(?:[ \u00a0]?(?:${UNIT})|(?!\p{L}))`;
const JOINER = '(?:, and |, | and | × |–)';

const PLAIN = /[.*+?^${}()|[\]\\/]/g;

/** What finds the places in a sentence, made once for the names there are. */
export class Places {
  readonly #names = new Set<string>();
  readonly #inFront = new Set<string>();
  #found: { readonly all: RegExp; readonly name: RegExp | undefined } | undefined;

  /**
   * Words that are names wherever they stand, such as those of parts.
   * @param inFront they are names only at the beginning, in front of a colon: what a size is called may be any word
   */
  know(names: Iterable<string>, inFront = false): void {
    const known = inFront ? this.#inFront : this.#names;
    for (const name of names) {
      if (name.trim() === '' || known.has(name)) continue;
      known.add(name);
      this.#found = undefined;
    }
  }

  get #patterns() {
    if (this.#found !== undefined) return this.#found;
    const anyOf = (names: ReadonlySet<string>): string =>
      [...names]
        .sort((a, b) => b.length - a.length)
        .map((one) => one.replaceAll(PLAIN, String.raw`\$&`))
        .join('|');
    const ways = [
      ...(this.#inFront.size === 0 ? [] : [`^(?:${anyOf(this.#inFront)})(?=: )`]),
      ...(this.#names.size === 0
        ? []
        : [String.raw`(?<![\p{L}\d])(?:${anyOf(this.#names)})(?![\p{L}\d])`]),
    ];
    const name = ways.length === 0 ? undefined : `(?:${ways.join('|')})`;
    const item = name === undefined ? NUMBER : `(?:${name}|${NUMBER})`;
    this.#found = {
      all: new RegExp(`${item}(?:${JOINER}${item})*`, 'gu'),
      name: name === undefined ? undefined : new RegExp(name, 'gu'),
    };
    return this.#found;
  }

  /** Puts places where numbers, names and lists of them stand. */
  in(sentence: string): PlacedSentence {
    const { all, name } = this.#patterns;
    const fills = new Map<string, readonly PlaceRun[]>();
    let [parts, numbers] = [0, 0];
    const key = sentence.replaceAll(/[{}]/g, '').replaceAll(all, (words) => {
      const runs = this.#inFront.has(words) ? [nameRun(words)] : runsIn(words, name);
      const isPart = runs.some(({ kind }) => kind === 'name');
      if (isPart) parts += 1;
      else numbers += 1;
      const place = isPart ? (parts === 1 ? 'part' : `part ${parts}`) : String(numbers);
      fills.set(place, runs);
      return `{${place}}`;
    });
    return { key, fills };
  }
}

const nameRun = (words: string): PlaceRun => ({ kind: 'name', words });

function runsIn(words: string, name: RegExp | undefined): readonly PlaceRun[] {
  if (name === undefined) return [{ kind: 'rest', words }];
  const runs: PlaceRun[] = [];
  let from = 0;
  for (const { 0: found, index } of words.matchAll(name)) {
    if (index > from) runs.push({ kind: 'rest', words: words.slice(from, index) });
    runs.push(nameRun(found));
    from = index + found.length;
  }
  if (from < words.length) runs.push({ kind: 'rest', words: words.slice(from) });
  return runs;
}

const PLACE = /\{([^{}]+)\}/g;

/** Whether a sentence says anything beside what stands in its places. */
export const hasWords = (key: string): boolean => /\p{L}/u.test(key.replaceAll(PLACE, ''));

/** A sentence with its places filled; those it knows nothing of stand as they are. */
export const withPlaces = (
  key: string,
  fills: ReadonlyMap<string, readonly PlaceRun[]>,
  say: (run: PlaceRun) => string,
): string =>
  key.replaceAll(
    PLACE,
    (whole, place: string) => fills.get(place.trim())?.map(say).join('') ?? whole,
  );

/** Sentences of a text, one by one. */
export const sentencesOf = (text: string): readonly string[] =>
  text.split(/(?<=[.!?]) +(?=[\p{Lu}\d])/u).filter((one) => one !== '');
