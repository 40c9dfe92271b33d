import { describe, expect, it } from 'vitest';
import { Fault, FUNCTIONS, type FunctionArgument, type FunctionDescription } from './index.ts';

/** A sentence about an argument names it as argument help does: a maker can look for nothing else. */

/** The arguments of a function's example, where all of them are numbers, sums of numbers or words. */
function exampleOf({ example, name, args }: FunctionDescription): FunctionArgument[] | undefined {
  const inner = example.slice(name.length + 2, -1);
  const parts = inner.match(/"[^"]*"|[^,"]+/g) ?? [];
  const read = parts.map((part) => numberOrWords(part.trim()));
  if (read.some((one) => one === null) || !example.startsWith(`=${name}(`)) return undefined;
  const filled = args.map((_, i) => read[i] ?? undefined);
  return filled;
}

/** `null` where it is neither. */
function numberOrWords(text: string): number | string | null {
  if (text.startsWith('"')) return text.slice(1, -1);
  const terms = /^-?[\d.]+(?:[*/][\d.]+)*$/.test(text) ? text.split(/([*/])/) : undefined;
  if (terms === undefined) return null;
  let value = Number(terms[0]);
  for (let i = 1; i < terms.length; i += 2) {
    const next = Number(terms[i + 1]);
    value = terms[i] === '*' ? value * next : value / next;
  }
  return value;
}

const NUMBERS = [-1e9, -1, 0, 0.001, 1, 40, 150, 1e9];
const WORDS = ['xyzzy', '', 'oak'];

/** Names of arguments that sentences of a function say, for wrong values one or two at a time. */
function saidBy(description: FunctionDescription, example: readonly FunctionArgument[]) {
  const said = new Set<string>();
  const ask = (args: readonly FunctionArgument[]): void => {
    try {
      description.run(...args);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      said.add(error.detail.argument);
    }
  };
  description.args.forEach(({ takes }, place) => {
    const bad = takes === 'number' ? NUMBERS : takes === 'text' ? WORDS : [...NUMBERS, ...WORDS];
    for (const value of takes === 'range' ? [] : bad) {
      ask(example.with(place, value));
      description.args.forEach((_, other) => {
        if (other === place || typeof example[other] !== 'number') return;
        for (const beside of [-5, 0, 0.01, 1000]) {
          ask(example.with(place, value).with(other, beside));
        }
      });
    }
  });
  return said;
}

describe('an argument in a sentence', () => {
  const asked = FUNCTIONS.flatMap((description) => {
    const example = exampleOf(description);
    return example === undefined ? [] : [{ name: description.name, description, example }];
  });

  it('is looked at in most functions', () => {
    expect(asked.length).toBeGreaterThan(0.7 * FUNCTIONS.length);
  });

  it.each(asked)('of $name is one that its help shows', ({ description, example }) => {
    const names = description.args.map(({ name }) => name);
    for (const said of saidBy(description, example)) expect(names).toContain(said);
  });
});
