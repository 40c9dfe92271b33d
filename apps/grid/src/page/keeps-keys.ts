/**
 * Whether what has the focus keeps it from cells that take it later than one asked for them, as when they are drawn
 * on a slow machine: a menu, which a phone that is turned leaves open, and a field one has gone on to, whose letters
 * would go into a cell.
 */
export const keepsKeys = (): boolean =>
  document.activeElement?.matches('input, textarea, select, [role="menu"] *') === true;

/** Gives the keys to the cells of a workbook once what led to it is gone from the page. */
export function keysToCells(newest: { readonly current: { focusGrid(): void } }): void {
  const give = (): void => {
    if (!keepsKeys()) newest.current.focusGrid();
  };
  requestAnimationFrame(() => requestAnimationFrame(give));
}
