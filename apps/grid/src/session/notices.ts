import type { Standing } from './standing.ts';
import type { Offer } from './types.ts';

/** Sentences to the maker: what was refused, and what is offered without standing in the way. */
export class Notices {
  readonly #standing: Standing;

  constructor(standing: Standing) {
    this.#standing = standing;
  }

  say(refused: string): void {
    this.#standing.set({ refused });
  }

  hush(): void {
    this.#standing.clear('refused');
  }

  /** Asks without standing in the way. */
  offer(offer: Offer): void {
    this.#standing.set({ offer });
  }

  /** Takes up an answer of the offer, or puts it away. */
  answerOffer(answer?: number): void {
    const { offer } = this.#standing.now;
    this.#standing.clear('offer');
    if (answer !== undefined) offer?.answers[answer]?.does();
  }
}
