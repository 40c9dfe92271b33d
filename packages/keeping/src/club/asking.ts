import {
  type AnswerOf,
  type Asked,
  ask,
  type ClubAddress,
  ClubRefused,
  type RouteName,
} from '@kerfbook/protocol';
import type { BooksPort } from './port.ts';

/** How long a club may take to answer, ms: a workbook of 2 MB over a slow line takes half of it. */
const PATIENCE = 30_000;

/** Asks the club at an address. What does not answer in time counts as away. */
export function booksAt(address: ClubAddress, patience = PATIENCE): BooksPort {
  const asked = async <N extends RouteName>(name: N, given: Asked<N>): Promise<AnswerOf<N>> => {
    const signal = AbortSignal.timeout(patience);
    try {
      return await ask(address, name, given, signal);
    } catch (error) {
      if (!signal.aborted) throw error;
      throw new ClubRefused('away', 'The club did not answer in time. Check the network.');
    }
  };
  return {
    list: async () => (await asked('books', {})).books,
    keep: async (body) => (await asked('keepBook', { body })).head,
    book: (book, since) =>
      asked('book', { params: { book }, query: since === undefined ? {} : { since } }),
    add: async (book, body) => (await asked('addState', { params: { book }, body })).head,
    states: async (book) => (await asked('states', { params: { book } })).states,
    letGo: async (book) => void (await asked('letBookGo', { params: { book } })),
    share: async (book, member) => void (await asked('shareBook', { params: { book, member } })),
    unshare: async (book, member) =>
      void (await asked('unshareBook', { params: { book, member } })),
  };
}
