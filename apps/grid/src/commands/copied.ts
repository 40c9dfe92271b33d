import { afterGrid, afterGridModule } from '../page/after-grid.ts';
import type { Block } from '../session/types.ts';

/**
 * Any page and any program can put anything on the clipboard. So it carries of our own cells a random
 * id only; what the id stands for is kept in this tab and, for other tabs of this browser, in a store of
 * the app's own.
 */
export const CELLS_TYPE = 'application/x-kerfbook-cells';

const store = afterGridModule(() => import('./copied-store.ts'));
void afterGrid.then(store).then(
  ({ forgetOld }) => forgetOld(),
  () => undefined,
);

let here: { readonly id: string; readonly block: Block } | undefined;

/** Remembers cells that are copied. The answer is what the clipboard carries for them. */
export function remember(block: Block): string {
  const id = randomId();
  here = { id, block };
  // Where the browser keeps nothing, or has no room, other tabs get the text.
  store()
    .then(({ keepCells }) => keepCells(id, block))
    .catch(() => undefined);
  return id;
}

/** The cells of an id, where they were copied in this tab. */
export const copiedHere = (id: string): Block | undefined =>
  here?.id === id ? here.block : undefined;

/** 128 bits: nobody comes upon it who was not given it. */
function randomId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
