import type { BinarySign, Node } from '@kerfbook/document';
import { type Gives, ourFunction, standardFunction } from '@kerfbook/functions';
import type { FunctionDescription } from '@kerfbook/wood';
import {
  ANY,
  combine,
  DATE,
  DAYS,
  fits,
  isBare,
  LOGICAL,
  type Meaning,
  type Measure,
  meaningOf,
  sameDims,
  WORDS,
  wordsFor,
} from './measure.ts';
import {
  conditionSlips,
  isHundredfold,
  isPercentage,
  isPlainPercent,
  PERCENT_SLIPS,
  referenceIn,
  takesPercent,
} from './percent.ts';

/** What a formula comes to, and what in it does not go together. */
export interface Inference {
  readonly meaning: Meaning;
  /** Sentences, in the order in which the formula is worked out. */
  readonly clashes: readonly string[];
  /** The same about percentages, with what to write. */
  readonly slips: readonly string[];
  /** The percentages that it multiplies or divides by as they are, as its maker reads them. */
  readonly percents: readonly string[];
}

/** A cell, a name or a range. */
export type Reference = Extract<Node, { readonly kind: 'reference' | 'name' | 'lost' }>;

/** What the cells of a reference are, and how its maker reads it. */
export interface Around {
  cells(reference: Reference): readonly Meaning[];
  written(reference: Reference): string;
}

/** Works out what a formula's number is (rule M1). Never refuses: what it cannot tell is `any`. */
export function infer(formula: Node, around: Around): Inference {
  const reader = new Reader(around);
  const meaning = reader.read(formula);
  const { clashes, slips, percents } = reader;
  return { meaning, clashes, slips, percents };
}

const measure = (dims: Measure['dims'], scaled = false, priced = false): Measure => ({
  kind: 'measure',
  dims,
  ...(scaled ? { scaled: true } : {}),
  ...(priced ? { priced: true } : {}),
});
const BARE = measure({});

/** What of its arguments a function only counts or looks at may be of any kinds; what stands within them not. */
const LOOKS: ReadonlySet<Gives> = new Set(['logical', 'words', 'count']);

class Reader {
  readonly clashes: string[] = [];
  readonly slips: string[] = [];
  readonly percents: string[] = [];
  /** A date added to a date, with what is to be said unless another is taken off again. */
  readonly #twice = new WeakMap<Meaning, string>();
  /** `1 + waste`, with what is to be said where it becomes a factor. */
  readonly #ones = new WeakMap<Meaning, string>();
  readonly #around: Around;

  constructor(around: Around) {
    this.#around = around;
  }

  read(node: Node): Meaning {
    switch (node.kind) {
      case 'number':
        return { kind: 'any', literal: node.value };
      case 'logical':
        return LOGICAL;
      case 'text':
        return WORDS;
      case 'reference':
      case 'name':
      case 'lost':
        return this.#agree(this.#around.cells(node), `The cells of ${this.#around.written(node)}`);
      case 'bracket':
        return this.read(node.of);
      case 'sign':
        return this.#signed(node);
      case 'joined':
        return this.#joined(node);
      case 'call':
        return this.#call(node.name, node.args);
      default:
        return ANY;
    }
  }

  /** Signs before and after one part. In a loop: hundreds may follow each other, as of `#joined`. */
  #signed(node: Node): Meaning {
    let inner = node;
    let percents = 0;
    let isLess = false;
    while (inner.kind === 'sign') {
      if (inner.sign === '%') percents += 1;
      if (inner.sign === '-') isLess = !isLess;
      inner = inner.of;
    }
    let meaning = this.read(inner);
    if (meaning.kind === 'any' && meaning.literal !== undefined) {
      const literal = ((isLess ? -1 : 1) * meaning.literal) / 100 ** percents;
      return { kind: 'any', literal, ...(percents > 0 ? { percent: true } : {}) };
    }
    for (; percents > 0 && meaning.kind === 'measure'; percents -= 1) {
      meaning = times(meaning, { kind: 'any', literal: 100 }, -1);
    }
    return meaning;
  }

  /** `a + b + c`: read from the left, which holds all but the last. */
  #joined(node: Node): Meaning {
    const signs: { readonly sign: BinarySign; readonly right: Node }[] = [];
    let left = node;
    while (left.kind === 'joined') {
      signs.push(left);
      left = left.left;
    }
    let first: Node | undefined = left;
    return signs.reduceRight((all, { sign, right }) => {
      const one = this.#binary(sign, all, this.read(right), first, right);
      first = undefined;
      return one;
    }, this.read(left));
  }

  #binary(sign: BinarySign, a: Meaning, b: Meaning, left: Node | undefined, right: Node): Meaning {
    switch (sign) {
      case '+':
        return this.#oneMore(
          this.#dated('+', a, b) ?? this.#sum(a, b, `This adds ${wordsFor(b)} to ${wordsFor(a)}`),
          sign,
          [a, b],
          [left, right],
        );
      case '-':
        return this.#oneMore(
          this.#dated('-', a, b) ??
            this.#sum(a, b, `This takes ${wordsFor(b)} from ${wordsFor(a)}`),
          sign,
          [a, b],
          [left, right],
        );
      case '*':
        return this.#product(a, b, 1, left, right);
      case '/':
        return this.#product(a, b, -1, left, right);
      case '^':
        return power(a, b);
      case '&':
        return WORDS;
      case '=':
      case '<>':
      case '<':
      case '>':
      case '<=':
      case '>=':
        this.#sum(a, b, `This compares ${wordsFor(a)} with ${wordsFor(b)}`);
        return LOGICAL;
    }
  }

  /** `1 + waste`, which is a slip where it becomes a factor: 16 where 1.15 is meant. */
  #oneMore(
    sum: Meaning,
    sign: '+' | '-',
    [a, b]: readonly [Meaning, Meaning],
    [left, right]: readonly [Node | undefined, Node],
  ): Meaning {
    const isOne = (one: Meaning): boolean => one.kind === 'any' && one.literal === 1;
    const percent =
      isOne(a) && isPlainPercent(b)
        ? right
        : isOne(b) && sign === '+' && isPlainPercent(a)
          ? left
          : undefined;
    const written = percent === undefined ? undefined : this.#written(percent);
    if (written === undefined) return sum;
    // A meaning of its own: others may stand for the same.
    const marked = { ...sum };
    this.#ones.set(marked, PERCENT_SLIPS.one(sign, written));
    return marked;
  }

  #written(node: Node): string | undefined {
    const reference = referenceIn(node);
    return reference && this.#around.written(reference);
  }

  #product(a: Meaning, b: Meaning, sign: 1 | -1, left: Node | undefined, right: Node): Meaning {
    const byHundred = sign === -1 && b.kind === 'any' && b.literal === 100;
    for (const one of [a, b]) {
      const slip = this.#ones.get(one);
      if (slip !== undefined && !byHundred) this.slips.push(slip);
    }
    if (!byHundred) {
      for (const [one, node] of [
        [a, left],
        [b, right],
      ] as const) {
        const written = node !== undefined && isPlainPercent(one) ? this.#written(node) : undefined;
        if (written !== undefined) this.percents.push(written);
      }
    }
    return times(a, b, sign);
  }

  /** A percent sign after a number, or a share, beside a percentage that is 15 for 15 %. */
  #besidePercent(a: Meaning, b: Meaning): void {
    for (const [one, other] of [
      [a, b],
      [b, a],
    ] as const) {
      if (one.kind !== 'any' || other.kind !== 'measure') continue;
      if (one.percent === true && one.literal !== undefined && isPercentage(other)) {
        this.slips.push(PERCENT_SLIPS.literal('a percentage is', one.literal));
      } else if (one.hundredfold === true && !isPercentage(other)) this.#hundredfold();
    }
  }

  #hundredfold(): void {
    const [name = 'the percentage'] = this.percents;
    this.slips.push(PERCENT_SLIPS.factor(name));
  }

  /** Both must be of one kind; the better known of the two is the answer. */
  #sum(a: Meaning, b: Meaning, says: string): Meaning {
    this.#besidePercent(a, b);
    if (a.kind === 'any') return b.kind === 'any' ? eitherHundredfold(a, b) : b;
    if (b.kind === 'any') return a;
    if (a.kind !== 'measure' || b.kind !== 'measure') return a.kind === b.kind ? a : ANY;
    if (fits(a, b)) return better(a, b);
    this.clashes.push(`${says}.`);
    return ANY;
  }

  /** A date and days are a date, a date less a date is days; `undefined` where no date is among them. */
  #dated(sign: '+' | '-', a: Meaning, b: Meaning): Meaning | undefined {
    const twice = this.#twice.get(a);
    if (twice !== undefined) return this.#lessOne(sign, b, twice);
    if (a.kind !== 'date' && b.kind !== 'date') return undefined;
    if (a.kind === b.kind) {
      if (sign === '-') return DAYS;
      const says = 'This adds a date to a date.';
      this.clashes.push(says);
      return this.#marked(says);
    }
    const other = a.kind === 'date' ? b : a;
    if (other.kind === 'measure' && sameDims(other.dims, { time: 1 })) {
      this.clashes.push('A date counts days, and hours divided by 24 are days.');
      return ANY;
    }
    if (other.kind === 'measure' && !isBare(other)) {
      const [what, from] = [wordsFor(b), wordsFor(a)];
      this.clashes.push(
        sign === '+' ? `This adds ${what} to ${from}.` : `This takes ${what} from ${from}.`,
      );
      return ANY;
    }
    const counts = other.kind === 'any' || other.kind === 'measure';
    return counts && (sign === '+' || a.kind === 'date') ? DATE : ANY;
  }

  /** `due + TODAY() - TODAY()` is a date all the same, days in between or not. */
  #lessOne(sign: '+' | '-', b: Meaning, says: string): Meaning | undefined {
    if (sign === '-' && b.kind === 'date') {
      this.clashes.splice(this.clashes.lastIndexOf(says), 1);
      return DATE;
    }
    const isDays = b.kind === 'any' || (b.kind === 'measure' && isBare(b));
    return isDays ? this.#marked(says) : undefined;
  }

  #marked(says: string): Meaning {
    const marked: Meaning = { kind: 'any' };
    this.#twice.set(marked, says);
    return marked;
  }

  #agree(meanings: readonly Meaning[], whose: string): Meaning {
    return meanings.reduce<Meaning>(
      (all, one) => this.#sum(all, one, `${whose} mix ${wordsFor(all)} with ${wordsFor(one)}`),
      ANY,
    );
  }

  #call(name: string, args: readonly Node[]): Meaning {
    const ours = ourFunction(name);
    if (ours !== undefined) return this.#ours(ours, args);
    const gives = standardFunction(name)?.gives ?? 'any';
    this.slips.push(...conditionSlips(name, args, (node) => this.read(node)));
    const given = args.map((node) =>
      LOOKS.has(gives) && isReference(node) ? ANY : this.read(node),
    );
    return this.#standard(name, gives, given);
  }

  #standard(name: string, gives: Gives, given: readonly Meaning[]): Meaning {
    const [first = ANY, second = ANY, third = ANY] = given;
    switch (gives) {
      case 'any':
        return ANY;
      case 'logical':
        return LOGICAL;
      case 'words':
        return WORDS;
      case 'date':
        return DATE;
      case 'days':
        return DAYS;
      case 'count':
      case 'bare':
        return BARE;
      case 'all':
        return this.#agree(given, `${name} is given cells that`);
      case 'range':
        return this.#agree([first], `${name} is given cells that`);
      case 'first':
        return first;
      case 'step':
        return this.#sum(
          first,
          second,
          `${name} takes ${wordsFor(first)} in steps of ${wordsFor(second)}`,
        );
      case 'if':
        return this.#agree([second, third], 'The two answers of IF');
      case 'instead':
        return this.#agree([first, second], `The two answers of ${name}`);
      case 'chosen':
        return given.length > 2 ? third : first;
      case 'root':
        return power(first, { kind: 'any', literal: 0.5 });
      case 'square':
        return power(first, { kind: 'any', literal: 2 });
      case 'power':
        return power(first, second);
      case 'product':
        return given.slice(1).reduce((all, one) => times(all, one, 1), first);
      case 'quotient':
        return times(first, second, -1);
    }
  }

  #ours(description: FunctionDescription, args: readonly Node[]): Meaning {
    description.args.forEach((argument, place) => {
      const node = args[place];
      // Columns of a table are of many quantities.
      if (node === undefined || argument.takes === 'table') return;
      const given = this.read(node);
      if (takesPercent(argument.quantity))
        this.#givenPercent(description.name, argument.name, given);
      const wanted = meaningOf(argument.quantity);
      if (given.kind !== 'measure' || wanted.kind !== 'measure') return;
      if (fits(given, wanted)) return;
      this.clashes.push(
        `${description.name} takes ${wordsFor(wanted)} as ${argument.name} and is given ${wordsFor(given)}.`,
      );
    });
    return meaningOf(description.result.quantity);
  }

  /** A number as it is typed, where a function takes 15 for 15 %. */
  #givenPercent(name: string, argument: string, given: Meaning): void {
    if (given.kind !== 'any' || given.literal === undefined) return;
    const { literal, percent } = given;
    if (percent === true) {
      this.slips.push(PERCENT_SLIPS.literal(`${argument} of ${name} is`, literal));
    } else if (literal !== 0 && Math.abs(literal) < 1) {
      this.slips.push(PERCENT_SLIPS.slight(`${argument} of ${name} takes`, literal));
    }
  }
}

/** A percentage that was added to a number is in it still. */
const eitherHundredfold = (a: Meaning, b: Meaning): Meaning =>
  isHundredfold(a) || isHundredfold(b) ? { kind: 'any', hundredfold: true } : ANY;

/** Brackets around a reference leave it one. */
function isReference(node: Node): boolean {
  let inner = node;
  while (inner.kind === 'bracket') inner = inner.of;
  return inner.kind === 'reference' || inner.kind === 'name' || inner.kind === 'lost';
}

/** A hundred or a hundredth turns a percentage, and once or none is no price. */
const mayBePrice = (by: number): boolean => ![100, 0.01, 1, -1, 0].includes(by);

/** Of two that fit: the one with dimensions or a tag, or in money, marked scaled when either is. */
function better(a: Measure, b: Measure): Measure {
  const isLess = (isBare(a) && a.tag === undefined) || sameDims(b.dims, { money: 1 });
  const kept = isLess ? b : a;
  return a.scaled === true || b.scaled === true ? { ...kept, scaled: true } : kept;
}

function times(a: Meaning, b: Meaning, sign: 1 | -1): Meaning {
  const unknown = unknownTimes(a, b, sign);
  if (unknown !== undefined) return unknown;
  if (a.kind === 'any' && a.literal !== undefined && b.kind === 'measure') {
    const priced = sign === 1 && mayBePrice(a.literal);
    return scaledBy(measure(combine({}, b.dims, sign), true, priced), a.literal, 1);
  }
  if (b.kind === 'any' && b.literal !== undefined && a.kind === 'measure') {
    // Hours divided by 24 are days, which may be counted; or a part of the hours.
    if (sign === -1 && b.literal === 24 && sameDims(a.dims, { time: 1 })) return ANY;
    const priced = a.priced === true || (sign === 1 && mayBePrice(b.literal));
    return scaledBy({ ...measure(a.dims, true, priced), ...tagOf(a, b.literal) }, b.literal, sign);
  }
  if (a.kind !== 'measure' || b.kind !== 'measure') return ANY;
  const scaled = a.scaled === true || b.scaled === true;
  const priced = a.priced === true || (sign === 1 && b.priced === true);
  const product = combine(a.dims, b.dims, sign);
  // A count of lengths is a length; a share of a moisture content is one still.
  const tag = isPlain(b) ? a.tag : sign === 1 && isPlain(a) ? b.tag : undefined;
  return { ...measure(product, scaled, priced), ...(tag === undefined ? {} : { tag }) };
}

/** A percentage goes into a product with what nothing is known of, and out of it by a hundred. */
function unknownTimes(a: Meaning, b: Meaning, sign: 1 | -1): Meaning | undefined {
  const known = (one: Meaning): boolean => one.kind !== 'any' || one.literal !== undefined;
  const byHundred = b.kind === 'any' && b.literal === (sign === -1 ? 100 : 0.01) ? true : undefined;
  if (a.kind === 'any' && a.hundredfold === true) return byHundred ? ANY : a;
  if (b.kind === 'any' && b.hundredfold === true) {
    return a.kind === 'any' && a.literal === 0.01 && sign === 1 ? ANY : b;
  }
  if (known(a) && known(b)) return undefined;
  return isPlainPercent(a) || isPlainPercent(b) ? { kind: 'any', hundredfold: true } : undefined;
}

const isPlain = (one: Measure): boolean => isBare(one) && one.tag === undefined;

/** A moisture content divided by a hundred is a share; by two it is a moisture content still. */
function tagOf({ tag }: Measure, by: number): { tag?: NonNullable<Measure['tag']> } {
  return tag === undefined || by === 100 ? {} : { tag };
}

/** A percentage divided by a hundred is a bare number, and a bare number times one a percentage. */
function scaledBy(one: Measure, by: number, sign: 1 | -1): Measure {
  const hundred = by === 100 ? sign : by === 0.01 ? -sign : 0;
  const has = one.dims.percent ?? 0;
  if (hundred === 0 || (hundred > 0 && has === 0)) return one;
  return { ...one, dims: combine(one.dims, { percent: 1 }, hundred) };
}

function power(a: Meaning, b: Meaning): Meaning {
  if (a.kind !== 'measure') return ANY;
  if (b.kind === 'any' && b.literal !== undefined) {
    return measure(combine({}, a.dims, b.literal), a.scaled === true);
  }
  return isBare(a) ? BARE : ANY;
}
