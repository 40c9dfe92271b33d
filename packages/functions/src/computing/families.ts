import { ARRAYS } from './arrays.ts';
import { conditionFamily } from './conditions.ts';
import { databaseFamily } from './database.ts';
import { DATES } from './dates.ts';
import { DIGIT_FAMILY } from './digits.ts';
import { FINANCE } from './finance.ts';
import { LOGICAL } from './logical.ts';
import { lookupFamily } from './lookups.ts';
import type { Matrix } from './matrix.ts';
import { NORMAL } from './normal.ts';
import { numberFamily } from './numbers.ts';
import { SAYS } from './says.ts';
import { STATISTICS } from './statistics.ts';
import { type Aids, any, type Computing, range } from './takes.ts';
import { Failure, fail, toNumber, type Value } from './values.ts';
import { wordFamily } from './words.ts';

/** Products line by line, added up: what is no number makes its line nothing. */
function sumOfProducts(...given: Matrix[]): Value {
  const [first] = given;
  const count = first?.cells.length ?? 0;
  const differs = given.some(
    ({ rows, columns }) => rows !== first?.rows || columns !== first.columns,
  );
  if (differs) return fail('VALUE', SAYS.sameSize);
  let sum = 0;
  for (let i = 0; i < count; i += 1) {
    let product = 1;
    for (const { cells } of given) {
      const value = cells[i] as Value;
      if (value instanceof Failure) return value;
      const number = toNumber(value);
      if (typeof number === 'number') product *= number;
      else product = 0;
    }
    sum += product;
  }
  return sum;
}

/** How many different values there are: errors of one kind are one, an empty text is none. */
function differentValues(...values: Value[]): number {
  const errors = new Set(values.map((value) => value instanceof Failure && value.type));
  errors.delete(false);
  const others = new Set(values.filter((value) => !(value instanceof Failure)));
  others.delete('');
  return errors.size + others.size;
}

/** How each standard function is worked out that we know, by its name. */
export function standardComputing(aids: Aids): ReadonlyMap<string, Computing> {
  return new Map(
    Object.entries<Computing>({
      ...LOGICAL,
      ...numberFamily(aids),
      ...wordFamily(aids),
      ...DATES,
      ...conditionFamily(aids),
      ...lookupFamily(aids),
      ...STATISTICS,
      ...databaseFamily(aids),
      ...NORMAL,
      ...FINANCE,
      ...DIGIT_FAMILY,
      ...ARRAYS,
      SUMPRODUCT: { takes: [range], again: 1, run: sumOfProducts },
      COUNTUNIQUE: {
        takes: [any],
        again: 1,
        spread: true,
        run: differentValues,
      },
      COUNTBLANK: {
        takes: [any],
        again: 1,
        spread: true,
        run: (...values: Value[]) => values.filter((value) => value === null).length,
      },
    }),
  );
}
