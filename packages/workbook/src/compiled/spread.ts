import type { Frame } from './frame.ts';
import { Failure, SAYS, toLogical, toText, type Value } from './values.ts';

/** A function over all its values as one list, ranges cell by cell. */
export interface Spread {
  readonly as: 'logical' | 'text';
  readonly run: (values: readonly (string | boolean)[]) => Value;
}

export const SPREAD: ReadonlyMap<string, Spread> = new Map(
  Object.entries<Spread>({
    AND: { as: 'logical', run: (values) => values.every((one) => one === true) },
    OR: { as: 'logical', run: (values) => values.some((one) => one === true) },
    XOR: {
      as: 'logical',
      run: (values) => values.filter((one) => one === true).length % 2 === 1,
    },
    CONCATENATE: { as: 'text', run: (values) => values.join('') },
  }),
);

type Work = (frame: Frame) => Value;

/** Words in a range that are neither yes nor no are passed over; anywhere else they are an error. */
export function spread({ as, run }: Spread, parts: readonly (Work | Int32Array)[]): Work {
  const wrong = new Failure('VALUE', SAYS.wrongType);
  return (frame) => {
    const values: (string | boolean)[] = [];
    const take = (value: Value, mayPass: boolean): Failure | undefined => {
      const fit = as === 'text' ? toText(value) : toLogical(value);
      if (fit instanceof Failure) return fit;
      if (fit !== undefined) values.push(fit);
      return fit === undefined && !mayPass ? wrong : undefined;
    };
    for (const part of parts) {
      const failure = typeof part === 'function' ? take(part(frame), false) : undefined;
      if (failure !== undefined) return failure;
      if (typeof part === 'function') continue;
      for (const slot of part) {
        const inside = take(frame.get(slot), true);
        if (inside !== undefined) return inside;
      }
    }
    return run(values);
  };
}
