import { editDistance, nearNames } from '../nearest.ts';
import { AXIS_WORDS, type AxisPlace, PLACE_FORMS } from './forms.ts';
import { PLACE_SAYS, PlaceFault } from './says.ts';

/** What a rule goes by: parts by their names as the table writes them. */
export interface Goal {
  /** One or two parts; left out where the words name none. */
  readonly names: readonly string[];
  /** The gap between them instead of the outline around them. */
  readonly gap: boolean;
}

/** How pieces lie along one axis. */
export type RuleKind =
  | 'pair'
  | 'low'
  | 'high'
  | 'middle'
  | 'spaces'
  | 'centers'
  | 'spread'
  | 'above'
  | 'below';

/** What is said about one axis. */
export interface AxisRule {
  readonly kind: RuleKind;
  readonly goal: Goal;
}

/** A place in words, read. */
export interface PlaceWords {
  /** At most one rule for each axis. */
  readonly rules: ReadonlyMap<AxisPlace, AxisRule>;
  /** How it is said to lie; left out where the words do not say. */
  readonly lies?: { readonly how: 'flat' | 'edge' | 'upright'; readonly runs?: AxisPlace };
  /** The way a piece between two others runs; left out where it is between none. */
  readonly reaches?: AxisPlace;
}

const NO_GOAL: Goal = { names: [], gap: false };

/** Said before names and before ways, and meaning nothing by themselves. */
const FILLERS = ['at', 'the', 'its', 'a', 'in', 'with'] as const;

const CORNERS = ['all four corners', 'four corners', '4 corners', 'each corner', 'corners'];
const ENDS = [
  'both ends',
  'each end',
  'two ends',
  'ends',
  'short sides',
  'short ends',
  'left and right',
  'mirrored along',
  'mirrored lengthwise',
];
const SIDES = [
  'front and back',
  'both sides',
  'each side',
  'both edges',
  'long sides',
  'long edges',
  'mirrored across',
  'mirrored crosswise',
];
const SINGLES: readonly (readonly [readonly string[], AxisPlace, RuleKind])[] = [
  [['left end', 'left side', 'left'], 0, 'low'],
  [['right end', 'right side', 'right'], 0, 'high'],
  [['front edge', 'front side', 'front'], 1, 'low'],
  [['back edge', 'back side', 'back'], 1, 'high'],
];
const SPACED: readonly (readonly [readonly string[], RuleKind])[] = [
  [['equal spaces', 'equally spaced', 'evenly spaced', 'equal gaps'], 'spaces'],
  [['equal centers', 'equal centres', 'on equal centers', 'on equal centres'], 'centers'],
  [['spread'], 'spread'],
];
const MIDDLE = ['centered', 'centred', 'middle'];
const UNDER = ['underneath', 'under', 'below'];
const ON = ['on top of', 'upon', 'on', 'above'];
const LIES: readonly (readonly [readonly string[], 'flat' | 'edge' | 'upright'])[] = [
  [['lying flat', 'flat'], 'flat'],
  [['on its edge', 'on edge'], 'edge'],
  [['standing upright', 'upright', 'standing'], 'upright'],
];

const AFTER_WAY = ['of', 'on', 'in', 'from', 'to'];
/** Words that begin another phrase are no slip in a name. */
const BEGINS_PHRASE =
  /^(?:and|along|across|up|upwards?|lengthwise|crosswise|between|both|four|each|mirrored|front|back|left|right|under|below|on|above|equal(?:ly)?|evenly|spread|cente?red|centred|flat|upright|standing)\b/i;
/** Longer than any place; a cell can hold a novel. */
const LONGEST = 300;
/** As much of what was typed as a sentence quotes. */
const QUOTED = 60;
const BETWEEN_PHRASES = [',', ';', 'and'];

/** A rule whose axis the words leave to the others of the place. */
interface Open {
  readonly words: string;
  readonly rule: AxisRule;
  /** Between two others: the piece runs that way. */
  readonly reaches: boolean;
}

/** Names of a table's parts by the key they are looked up by. */
export type KnownNames = ReadonlyMap<string, string>;

const keyOf = (text: string): string => text.trim().replaceAll(/\s+/g, ' ').toLowerCase();

/** The names as places look them up: in any case, with any spacing. */
export const knownNames = (names: readonly string[]): KnownNames =>
  new Map(names.map((name) => [keyOf(name), name]));

/**
 * Reads a place in words.
 * @param part its name, for sentences
 * @param text as the cell says it
 * @param known the names of the table's parts
 * @throws PlaceFault where the words place nothing, name no part, or say one thing twice
 */
export function readPlaceWords(part: string, text: string, known: KnownNames): PlaceWords {
  return new PlaceReader(part, text, known).read();
}

/** Whether a text says a place that can be read, beside parts of these names. */
export function isPlace(text: string, names: readonly string[]): boolean {
  try {
    readPlaceWords('', text, knownNames(names));
    return true;
  } catch (error) {
    if (error instanceof PlaceFault) return false;
    throw error;
  }
}

class PlaceReader {
  readonly #part: string;
  readonly #text: string;
  readonly #known: KnownNames;
  #at = 0;
  readonly #rules = new Map<AxisPlace, AxisRule>();
  readonly #open: Open[] = [];
  #lies: PlaceWords['lies'];
  #reaches: AxisPlace | undefined;

  constructor(part: string, text: string, known: KnownNames) {
    this.#part = part;
    this.#text = text.trim().replaceAll(/\s+/g, ' ');
    this.#known = known;
  }

  read(): PlaceWords {
    if (this.#text.length > LONGEST) this.#refuse(0);
    for (;;) {
      const from = this.#at;
      if (!this.#phrase()) this.#refuse(from);
      if (this.#isEnd()) break;
      if (this.#take(BETWEEN_PHRASES) === undefined && !this.#isAtHere()) this.#refuse(from);
      if (this.#isEnd()) break;
    }
    for (const open of this.#open) this.#close(open);
    return {
      rules: this.#rules,
      ...(this.#lies === undefined ? {} : { lies: this.#lies }),
      ...(this.#reaches === undefined ? {} : { reaches: this.#reaches }),
    };
  }

  /** "at" begins a phrase with no comma before it: "between the legs at the ends". */
  #isAtHere(): boolean {
    return /^ ?at /i.test(this.#text.slice(this.#at));
  }

  /** One way to place, put among the rules; false where the words say none. */
  #phrase(): boolean {
    this.#skip();
    return (
      this.#lie() ||
      this.#spaced() ||
      this.#both() ||
      this.#single() ||
      this.#between() ||
      this.#centered() ||
      this.#upAndDown()
    );
  }

  #lie(): boolean {
    for (const [words, how] of LIES) {
      if (this.#take(words) === undefined) continue;
      const runs = this.#axis();
      this.#lies = { how, ...(runs === undefined ? {} : { runs }) };
      return true;
    }
    return false;
  }

  #both(): boolean {
    const corners = this.#take(CORNERS);
    const ends = corners === undefined ? this.#take(ENDS) : corners;
    const sides = corners === undefined && ends === undefined ? this.#take(SIDES) : corners;
    if (ends === undefined && sides === undefined) return false;
    const rule: AxisRule = { kind: 'pair', goal: this.#goalAfter() };
    if (ends !== undefined) this.#put(0, rule);
    if (sides !== undefined) this.#put(1, rule);
    return true;
  }

  #single(): boolean {
    for (const [words, axis, kind] of SINGLES) {
      if (this.#take(words) === undefined) continue;
      this.#put(axis, { kind, goal: this.#goalAfter() });
      return true;
    }
    return false;
  }

  #spaced(): boolean {
    for (const [words, kind] of SPACED) {
      const said = this.#take(words);
      if (said === undefined) continue;
      const before = this.#axis();
      const goal = this.#take(['between']) === undefined ? this.#goalAfter() : this.#gap('between');
      this.#putOrLeave(before ?? this.#axis(), {
        words: said,
        rule: { kind, goal },
        reaches: false,
      });
      return true;
    }
    return false;
  }

  #between(): boolean {
    const from = this.#at;
    if (this.#take(['between']) === undefined) return false;
    const before = this.#axis();
    const goal = this.#gap('between');
    const axis = before ?? this.#axis();
    const words = this.#text.slice(from, this.#at).trim();
    this.#putOrLeave(axis, { words, rule: { kind: 'middle', goal }, reaches: true });
    return true;
  }

  #centered(): boolean {
    if (this.#take(MIDDLE) === undefined) return false;
    const before = this.#axis();
    const goal = this.#goalAfter();
    const axis = before ?? this.#axis();
    const rule: AxisRule = { kind: 'middle', goal };
    if (axis !== undefined) this.#put(axis, rule);
    else for (const both of [0, 1] as const) this.#put(both, rule);
    return true;
  }

  #upAndDown(): boolean {
    const under = this.#take(UNDER);
    const words = under ?? this.#take(ON);
    if (words === undefined) return false;
    // A part stands on the floor as it is: z counts from there.
    if (under === undefined && this.#take(['the floor', 'floor']) !== undefined) return true;
    const names = [this.#name() ?? this.#unnamed(words)];
    this.#put(2, { kind: under === undefined ? 'above' : 'below', goal: { names, gap: false } });
    return true;
  }

  /** What stands behind "of", or a name by itself; nothing where the phrase ends. */
  #goalAfter(): Goal {
    const of = this.#take(AFTER_WAY);
    const name = this.#name();
    if (name !== undefined) return { names: [name], gap: false };
    if (of !== undefined) this.#unnamed(of);
    return NO_GOAL;
  }

  #gap(words: string): Goal {
    const one = this.#name() ?? this.#unnamed(words);
    const from = this.#at;
    const other = this.#take(['and', 'to']) === undefined ? undefined : this.#name();
    // "and" may as well begin the next phrase.
    if (other === undefined) this.#at = from;
    const names = other === undefined || other === one ? [one] : [one, other];
    return { names, gap: true };
  }

  #putOrLeave(axis: AxisPlace | undefined, open: Open): void {
    if (axis === undefined) {
      this.#open.push(open);
      return;
    }
    this.#put(axis, open.rule);
    if (open.reaches) this.#reaches = axis;
  }

  /** Where the other phrases leave only one way on the level, that one is meant. */
  #close(open: Open): void {
    const free = ([0, 1] as const).filter((axis) => !this.#rules.has(axis));
    const [axis] = free;
    if (axis === undefined || free.length > 1 || this.#open.length > 1) {
      throw new PlaceFault(PLACE_SAYS.whichWay(this.#part, open.words));
    }
    this.#putOrLeave(axis, open);
  }

  #put(axis: AxisPlace, rule: AxisRule): void {
    if (this.#rules.has(axis)) throw new PlaceFault(PLACE_SAYS.twice(this.#part, axis));
    this.#rules.set(axis, rule);
  }

  #axis(): AxisPlace | undefined {
    return AXIS_WORDS.find(([, words]) => this.#take(longestFirst(words)) !== undefined)?.[0];
  }

  #skip(): void {
    while (this.#take(FILLERS) !== undefined) {
      // Each of them is passed over.
    }
  }

  /** Takes the first of the words that stands here, and gives it as it is listed. */
  #take(words: readonly string[]): string | undefined {
    const from = this.#text[this.#at] === ' ' ? this.#at + 1 : this.#at;
    for (const word of words) {
      const to = from + word.length;
      if (this.#text.slice(from, to).toLowerCase() !== word || !this.#endsAt(to, word)) continue;
      this.#at = to;
      return word;
    }
    return undefined;
  }

  #endsAt(to: number, word: string): boolean {
    const next = this.#text[to];
    return next === undefined || word === ',' || word === ';' || !/[\p{L}\p{Nd}]/u.test(next);
  }

  /** The longest name of a part that stands here, in quotation marks or as a plural as well. */
  #name(): string | undefined {
    const from = this.#text[this.#at] === ' ' ? this.#at + 1 : this.#at;
    const rest = this.#text.slice(from);
    const quoted = /^["“]([^"”]*)["”]/.exec(rest);
    if (quoted !== null) {
      this.#at = from + quoted[0].length;
      return this.#lookUp(quoted[1] ?? '') ?? this.#unknown(quoted[1] ?? '');
    }
    // A part may itself be called "A" or "The …", so an article is passed over only after that.
    const article = /^(?:the|its|an?) /i.exec(rest)?.[0].length ?? 0;
    const name = this.#nameAt(from) ?? (article > 0 ? this.#nameAt(from + article) : undefined);
    if (name !== undefined) return name;
    const slip = /^[^,;]+?(?= and\b| along\b| across\b| up\b|[,;]|$)/iu.exec(
      rest.slice(article),
    )?.[0];
    if (slip !== undefined && !BEGINS_PHRASE.test(slip)) this.#unknown(slip.trim());
    return undefined;
  }

  #nameAt(from: number): string | undefined {
    const rest = this.#text.slice(from);
    const ends = [...rest.matchAll(/[\p{L}\p{Nd})](?![\p{L}\p{Nd})])/gu)];
    for (const { index } of ends.reverse()) {
      const name = this.#lookUp(rest.slice(0, index + 1));
      if (name === undefined) continue;
      this.#at = from + index + 1;
      return name;
    }
    return undefined;
  }

  #lookUp(words: string): string | undefined {
    const key = keyOf(words);
    const one = key.endsWith('s') ? key.slice(0, -1) : key;
    return this.#known.get(key) ?? this.#known.get(one) ?? this.#known.get(`${key}s`);
  }

  #isEnd(): boolean {
    return this.#text.slice(this.#at).trim() === '';
  }

  #unnamed(words: string): never {
    throw new PlaceFault(PLACE_SAYS.noName(this.#part, words));
  }

  #unknown(name: string): never {
    const [near] = nearNames(name, [...this.#known.values()], 1);
    throw new PlaceFault(PLACE_SAYS.unknown(this.#part, quoted(name), near));
  }

  #refuse(from: number): never {
    const words = (/^[^,;]*/.exec(this.#text.slice(from).replace(/^[ ,;]+/, '')) ?? [''])[0];
    throw new PlaceFault(PLACE_SAYS.unread(this.#part, quoted(words), nearestForm(words)));
  }
}

const quoted = (words: string): string => {
  const text = words.trim();
  return text.length > QUOTED ? `${text.slice(0, QUOTED)}…` : text;
};

const longestFirst = (words: readonly string[]): readonly string[] =>
  [...words].sort((a, b) => b.length - a.length);

/** Share of letters that may differ before two phrases are not the same one misspelt. */
const NEAR = 0.4;

const BETWEEN_ALONG = 'between Leg along';
const AT_ENDS = /\b(?:ends?|left|right|short)\b/;

/** The way to place that words resemble most, by as many of its first letters as were typed. */
function nearestForm(words: string): string | undefined {
  const asked = keyOf(words)
    .replace(/^(?:(?:at|the|a|in) )+/, '')
    .slice(0, 60);
  if (asked === '') return undefined;
  const apart = PLACE_FORMS.map(({ words: form }) => {
    const start = form.replace(/ (?:of )?(?:Top|Leg|Leg and Post)\b.*$/, '').toLowerCase();
    const typed = asked.slice(0, start.length + 1).trim();
    return { form, away: editDistance(typed, start) / Math.max(start.length, 1) };
  }).sort((a, b) => a.away - b.away);
  const [first] = apart;
  if (first === undefined || first.away > NEAR) return undefined;
  // What lies between legs at the left and the right reaches across.
  const isAcross = first.form === BETWEEN_ALONG && AT_ENDS.test(asked);
  return isAcross ? 'between Leg across, left and right' : first.form;
}
