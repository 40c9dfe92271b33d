/**
 * Whether what has the focus keeps it from cells that take it later than one asked for them, as when they are drawn
 * on a slow machine: a menu, which a phone that is turned leaves open, and a field one has gone on to, whose letters
 * would go into a cell.
 */
export const keepsKeys = (): boolean =>
  document.activeElement?.matches('input, textarea, select, [role="menu"] *') === true;

/** So many frames cells are waited for that scroll in or are drawn anew: about a second on a slow machine. */
const FRAMES = 30;

/**
 * Gives the keys to the cells of a workbook once what led to it is gone from the page, and again until one of them
 * has come that takes them. A field that one has gone on to keeps them.
 */
export function keysToCells(newest: { readonly current: { focusGrid(): void } }): void {
  const give = (left: number): void => {
    if (keepsKeys()) return;
    newest.current.focusGrid();
    requestAnimationFrame(() => {
      if (left > 0 && document.activeElement === document.body) give(left - 1);
    });
  };
  requestAnimationFrame(() => requestAnimationFrame(() => give(FRAMES)));
}
