import { parseCorner } from './address.ts';

export interface NameProblem {
  /** One sentence that says why not. */
  readonly says: string;
  /** A name near it that would do. */
  readonly offer?: string;
}

const RESERVED = new Set([
  'true',
  'false',
  'r',
  'c',
  'rc',
  '__proto__',
  'constructor',
  'prototype',
]);
const CELL_LIKE = /^([A-Za-z]{1,}?)(\d+)$/;

let isFunction: (name: string) => boolean = () => false;

/** Tells the name check the standard functions; the engine knows them and says so once. */
export function setFunctionNames(names: ReadonlySet<string>): void {
  isFunction = (name) => names.has(name.toUpperCase());
}

/** Why a cell cannot have this name; `undefined` when it can (rule S1). */
export function nameProblem(name: string): NameProblem | undefined {
  if (name === '') return { says: 'A name has at least one letter.' };
  if (name.length > 100)
    return { says: `A name has at most 100 characters; this one has ${name.length}.` };
  const cell = CELL_LIKE.exec(name);
  if (cell !== null) {
    return {
      says: `${name} could be the address of a cell.`,
      offer: `${cell[1]}_${cell[2]}`,
    };
  }
  if (/^[Rr]\d*[Cc]\d*$/.test(name) || RESERVED.has(name.toLowerCase())) {
    return { says: `${name} has a meaning of its own in formulas.`, offer: `${name}_` };
  }
  if (!/^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name)) return wrongLetters(name);
  if (parseCorner(name)?.row !== undefined)
    return { says: `${name} could be the address of a cell.` };
  if (isFunction(name)) {
    return { says: `${name.toUpperCase()} is a function.`, offer: `my_${name.toLowerCase()}` };
  }
  return undefined;
}

function wrongLetters(name: string): NameProblem {
  const offer = name
    .trim()
    .replace(/[^\p{L}\p{N}_.]+/gu, '_')
    .replace(/^([\d.])/, '_$1');
  const says = 'A name begins with a letter and has letters, digits, _ and . in it.';
  return offer === name || offer === '' || nameProblem(offer) !== undefined
    ? { says }
    : { says, offer };
}
