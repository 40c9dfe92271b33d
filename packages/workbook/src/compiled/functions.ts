import {
  type Aids,
  type Computing,
  type Position,
  positions,
  standardComputing,
} from '@kerfbook/functions/computing';
import { refusalOf } from '../results/described.ts';
import { LONGEST_TEXT, spend } from '../results/meter.ts';
import { person } from '../results/sentences.ts';

const AIDS: Aids = {
  spend,
  longest: LONGEST_TEXT,
  tooLong: person('E18', LONGEST_TEXT),
  outside: person('E9'),
  divides: refusalOf('divided by zero').message,
  signs: refusalOf('different signs').message,
  loading: person('E21'),
  missing: person('E10'),
  wrongCount: person('E14'),
};

/** How standard functions are worked out, by name. */
export const PLAIN: ReadonlyMap<string, Computing> = standardComputing(AIDS);

/** Functions of where cells stand, by name. */
export const POSITIONS: ReadonlyMap<string, Position> = positions(AIDS);
