import { Watched } from '@kerfbook/keeping';
import type { ClubBooks, ClubState, Standing } from '@kerfbook/keeping/club';
import { useCallback, useSyncExternalStore } from 'react';

/** The workbooks of this device as they follow the member who is signed in. */
export interface Followed {
  readonly books: ClubBooks;
  readonly me: { readonly id: string; readonly name: string };
  /** What others call this device. */
  readonly device: string;
}

/** Nothing where no club serves the page, nobody is signed in, or what does it has not come yet. */
export const followed = new Watched<Followed | undefined>(undefined);

/** The workbooks that follow whoever is signed in. */
export function useFollowed(): Followed | undefined {
  return useSyncExternalStore(followed.watch, () => followed.value);
}

const NOTHING: ClubState = { books: new Map() };
const HERE: Standing = { kind: 'here' };
const nobody = (): (() => void) => () => undefined;

/** How all workbooks of this device stand with the club. */
export function useClubState(): ClubState {
  const books = useFollowed()?.books;
  const watch = useCallback(
    (heard: () => void) => (books === undefined ? nobody() : books.state.watch(heard)),
    [books],
  );
  return useSyncExternalStore(watch, () => books?.state.value ?? NOTHING);
}

/** How one workbook of this device stands with the club. */
export function useStanding(id: string): Standing {
  return useClubState().books.get(id) ?? HERE;
}
