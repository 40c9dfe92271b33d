import { Watched } from '@kerfbook/keeping';

/** Grows when what the shop has was marked, taken, left or changed: what is told of it is looked at again. */
export const shopSeen = new Watched(0);

/** What the shop has was marked, taken, left or changed. */
export function shopLooked(): void {
  shopSeen.set(shopSeen.value + 1);
}
