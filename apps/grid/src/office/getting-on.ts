/** A file that was made to hang whoever opens it is stopped then; ms. */
export const AT_MOST = 5_000;
/** From then on it has to get on, so that it would be done within a minute; ms. */
const WHOLE = 60_000;
/** It is looked at over so long; ms. */
const OVER = 3_000;

/** What is heard of it. */
interface Heard {
  /** How far it is, from 0 to 1. */
  readonly share: number;
  /** It may take far longer from now on, and nothing is heard of it meanwhile. */
  readonly isHandedOn: boolean;
}

/**
 * Whether what is read gets on. What was made to hang stands still, or all but still, or asks for more than is counted; a
 * large file on a slow machine takes long too, and gets on all the time.
 */
export class GettingOn {
  readonly #begun: number;
  /** How far it was, the latest last. */
  #known: { readonly share: number; readonly at: number }[];
  #isHandedOn = false;

  /** @param begun when it began, ms */
  constructor(begun: number) {
    this.#begun = begun;
    this.#known = [{ share: 0, at: begun }];
  }

  /** This is heard of it now. */
  hear({ share, isHandedOn }: Heard, at: number): void {
    this.#isHandedOn ||= isHandedOn;
    this.#known.push({ share, at });
    // Of what is longer ago only the last is asked for.
    const kept = this.#known.findLastIndex((one) => one.at <= at - OVER);
    if (kept > 0) this.#known = this.#known.slice(kept);
  }

  /** It is to be stopped now. */
  isStuck(now: number): boolean {
    if (now - this.#begun < AT_MOST) return false;
    if (this.#isHandedOn) return true;
    const before = this.#known.findLast(({ at }) => at <= now - OVER)?.share ?? 0;
    const gained = (this.#known.at(-1)?.share ?? 0) - before;
    return gained < OVER / WHOLE;
  }
}
