import type { Onward, Pace } from '../port.ts';

/** How many formulas are gone through between two words of how far it is. */
const EACH = 256;

/** Tells of the first half, compiling, as long as there are formulas left: `done` of `all`. */
export function tellCompiled(
  onward: Onward | undefined,
  done: number,
  all: number,
  isHandedOn: boolean,
): void {
  if (done % EACH === 0) onward?.((0.5 * done) / all, isHandedOn);
}

/** A pace that never stops, and tells of the second half, working out, each time it is asked. */
export function tellingPace(onward: Onward | undefined, nodes: number): Pace | undefined {
  if (onward === undefined) return undefined;
  const looks = Math.ceil(nodes / EACH);
  let look = 0;
  return () => {
    look += 1;
    onward(0.5 + 0.5 * Math.min(1, look / looks), false);
    return true;
  };
}
