import { Watched } from '@kerfbook/keeping';

/** The code of a link by which somebody comes into the club; it stands in the page's address until it is taken. */
export const joinCode = new Watched<string | undefined>(undefined);

const JOINS = '#join=';

/** Takes a code out of the page's address, where there is one: it must not stay in the browser's history. */
export function takeJoinCode(): boolean {
  const { hash, pathname, search } = location;
  if (!hash.startsWith(JOINS)) return false;
  history.replaceState(history.state, '', pathname + search);
  joinCode.set(hash.slice(JOINS.length));
  return true;
}
