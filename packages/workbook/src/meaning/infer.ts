import { type Gives, ourFunction, standardFunction } from '@kerfbook/functions';
import type { FunctionDescription } from '@kerfbook/wood';
import {
  ANY,
  combine,
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

/** A formula read into its parts, as the parser of the tokens gives it. */
export type Part =
  | { readonly type: 'Literal'; readonly value: unknown; readonly raw: string }
  | { readonly type: 'ReferenceIdentifier'; readonly value: string; readonly kind: string }
  | {
      readonly type: 'UnaryExpression' | 'BinaryExpression';
      readonly operator: string;
      readonly arguments: readonly (Part | null)[];
    }
  | {
      readonly type: 'CallExpression';
      /** A function's name, or anything that stands in front of a bracket: `(width)(2)`, `width#()`. */
      readonly callee: Part | { readonly type: 'Identifier'; readonly name: string };
      readonly arguments: readonly (Part | null)[];
    }
  | { readonly type: 'ArrayExpression'; readonly elements: readonly (readonly Part[])[] }
  | { readonly type: 'ErrorLiteral' | 'Identifier' | 'LambdaExpression' | 'LetExpression' };

/** What a formula comes to, and what in it does not go together. */
export interface Inference {
  readonly meaning: Meaning;
  /** Sentences, in the order in which the formula is worked out. */
  readonly clashes: readonly string[];
}

/** What a reference of the formula stands for: a cell, a name or a range. */
type MeaningOfReference = (reference: string) => readonly Meaning[];

/** Works out what a formula's number is (rule M1). Never refuses: what it cannot tell is `any`. */
export function infer(formula: Part, reference: MeaningOfReference): Inference {
  const reader = new Reader(reference);
  return { meaning: reader.read(formula), clashes: reader.clashes };
}

const measure = (dims: Measure['dims'], scaled = false): Measure => ({
  kind: 'measure',
  dims,
  ...(scaled ? { scaled: true } : {}),
});
const BARE = measure({});

/** What of its arguments a function only counts or looks at may be of any kinds; what stands within them not. */
const LOOKS: ReadonlySet<Gives> = new Set(['logical', 'words', 'count']);

class Reader {
  readonly clashes: string[] = [];
  readonly #reference: MeaningOfReference;

  constructor(reference: MeaningOfReference) {
    this.#reference = reference;
  }

  read(part: Part | null | undefined): Meaning {
    switch (part?.type) {
      case 'Literal':
        return literal(part.value);
      case 'ReferenceIdentifier':
        return this.#agree(this.#reference(part.value), `The cells of ${part.value}`);
      case 'UnaryExpression':
        return this.#signed(part);
      case 'BinaryExpression':
        return this.#joined(part);
      case 'CallExpression':
        return this.#call(calledName(part.callee), part.arguments);
      default:
        return ANY;
    }
  }

  /** Signs before and after one part. In a loop: hundreds may follow each other, as of `#joined`. */
  #signed(part: Part): Meaning {
    let inner: Part | null | undefined = part;
    let percents = 0;
    while (inner?.type === 'UnaryExpression') {
      if (inner.operator === '%') percents += 1;
      inner = inner.arguments[0];
    }
    let meaning = this.read(inner);
    for (; percents > 0 && meaning.kind === 'measure'; percents -= 1) {
      meaning = times(meaning, { kind: 'any', literal: 100 }, -1);
    }
    return meaning;
  }

  /** `a + b + c`: read from the left, which holds all but the last. */
  #joined(part: Part): Meaning {
    const signs: { readonly operator: string; readonly right: Part | null | undefined }[] = [];
    let left: Part | null | undefined = part;
    while (left?.type === 'BinaryExpression') {
      signs.push({ operator: left.operator, right: left.arguments[1] });
      left = left.arguments[0];
    }
    return signs.reduceRight(
      (all, { operator, right }) => this.#binary(operator, all, this.read(right)),
      this.read(left),
    );
  }

  #binary(operator: string, a: Meaning, b: Meaning): Meaning {
    switch (operator) {
      case '+':
        return this.#sum(a, b, `This adds ${wordsFor(b)} to ${wordsFor(a)}`);
      case '-':
        return this.#sum(a, b, `This takes ${wordsFor(b)} from ${wordsFor(a)}`);
      case '*':
        return times(a, b, 1);
      case '/':
        return times(a, b, -1);
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
      default:
        return ANY;
    }
  }

  /** Both must be of one kind; the better known of the two is the answer. */
  #sum(a: Meaning, b: Meaning, says: string): Meaning {
    if (a.kind === 'any') return b.kind === 'any' ? ANY : b;
    if (b.kind === 'any') return a;
    if (a.kind !== 'measure' || b.kind !== 'measure') return a.kind === b.kind ? a : ANY;
    if (fits(a, b)) return better(a, b);
    this.clashes.push(`${says}.`);
    return ANY;
  }

  #agree(meanings: readonly Meaning[], whose: string): Meaning {
    return meanings.reduce<Meaning>(
      (all, one) => this.#sum(all, one, `${whose} mix ${wordsFor(all)} with ${wordsFor(one)}`),
      ANY,
    );
  }

  #call(name: string, args: readonly (Part | null)[]): Meaning {
    const ours = ourFunction(name);
    if (ours !== undefined) return this.#ours(ours, args);
    const gives = standardFunction(name)?.gives ?? 'any';
    const given = args.map((part) =>
      part === null || (LOOKS.has(gives) && part.type === 'ReferenceIdentifier')
        ? ANY
        : this.read(part),
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

  #ours(description: FunctionDescription, args: readonly (Part | null)[]): Meaning {
    description.args.forEach((argument, place) => {
      const part = args[place];
      if (part === undefined || part === null) return;
      const given = this.read(part);
      const wanted = meaningOf(argument.quantity);
      if (given.kind !== 'measure' || wanted.kind !== 'measure') return;
      if (fits(given, wanted)) return;
      this.clashes.push(
        `${description.name} takes ${wordsFor(wanted)} as ${argument.name} and is given ${wordsFor(given)}.`,
      );
    });
    return meaningOf(description.result.quantity);
  }
}

/** A call of what is no function has no meaning to find; the engine says what is wrong. */
const calledName = (callee: Part | { readonly name?: string }): string =>
  'name' in callee && callee.name !== undefined ? callee.name.toUpperCase() : '';

function literal(value: unknown): Meaning {
  if (typeof value === 'number') return { kind: 'any', literal: value };
  if (typeof value === 'boolean') return LOGICAL;
  return typeof value === 'string' ? WORDS : ANY;
}

/** Of two that fit: the one with dimensions or a tag, marked scaled when either is. */
function better(a: Measure, b: Measure): Measure {
  const kept = isBare(a) && a.tag === undefined ? b : a;
  return a.scaled === true || b.scaled === true ? { ...kept, scaled: true } : kept;
}

function times(a: Meaning, b: Meaning, sign: 1 | -1): Meaning {
  if (a.kind === 'any' && a.literal !== undefined && b.kind === 'measure') {
    return scaledBy(measure(combine({}, b.dims, sign), true), a.literal, 1);
  }
  if (b.kind === 'any' && b.literal !== undefined && a.kind === 'measure') {
    // Hours divided by 24 are days, which may be counted; or a part of the hours.
    if (sign === -1 && b.literal === 24 && sameDims(a.dims, { time: 1 })) return ANY;
    return scaledBy({ ...measure(a.dims, true), ...tagOf(a, b.literal) }, b.literal, sign);
  }
  if (a.kind !== 'measure' || b.kind !== 'measure') return ANY;
  const scaled = a.scaled === true || b.scaled === true;
  const product = combine(a.dims, b.dims, sign);
  // A count of lengths is a length; a share of a moisture content is one still.
  const tag = isPlain(b) ? a.tag : sign === 1 && isPlain(a) ? b.tag : undefined;
  return { ...measure(product, scaled), ...(tag === undefined ? {} : { tag }) };
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
