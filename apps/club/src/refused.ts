import type { RefusalCode } from '@kerfbook/protocol';

/** What was asked is not done, with a sentence for the person. */
export class Refused extends Error {
  override readonly name = 'Refused';
  /** The reason. */
  readonly code: RefusalCode;
  /** Seconds to let pass. */
  readonly wait: number | undefined;
  /** The number that stands now, where something was changed meanwhile. */
  readonly head: number | undefined;

  constructor(
    code: RefusalCode,
    says: string,
    more: { readonly wait?: number; readonly head?: number } = {},
  ) {
    super(says);
    this.code = code;
    this.wait = more.wait;
    this.head = more.head;
  }
}

/** There is none, or whoever asks may not know of it: both are answered alike. */
export const notThere = (what: string): Refused =>
  new Refused('notThere', `${what} is not there. It may have been removed meanwhile.`);
