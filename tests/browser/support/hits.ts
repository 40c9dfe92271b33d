import type { Locator } from 'playwright-core';

/**
 * Controls in a region that a press in their middle would miss, each with what it would hit. Nothing
 * is scrolled: what lies beyond the edge of the screen is missed as well.
 */
export function missed(
  region: Locator,
  controls = 'button, input, select, label',
): Promise<readonly string[]> {
  return region.evaluate(
    (element, wanted) =>
      [...element.querySelectorAll(wanted)].flatMap((control) => {
        if (!control.checkVisibility()) return [];
        const { left, top, width, height } = control.getBoundingClientRect();
        const [x, y] = [left + width / 2, top + height / 2];
        const hit = document.elementFromPoint(x, y);
        const good =
          hit !== null &&
          (control.contains(hit) || hit.closest('label')?.contains(control) === true);
        if (good) return [];
        const says = control.textContent || control.parentElement?.textContent || control.outerHTML;
        return [
          `${says} at ${Math.round(x)}, ${Math.round(y)} is under ${hit?.className ?? 'nothing'}`,
        ];
      }),
    controls,
  );
}

/** The same for cells of the grid whose middle lies within its own frame. */
export function coveredCells(grid: Locator): Promise<readonly string[]> {
  return grid.evaluate((element) => {
    const frame = element
      .querySelector('.ag-body-viewport, .ag-grid-viewport')
      ?.getBoundingClientRect();
    if (frame === undefined) return ['there is no grid'];
    const cells = [...element.querySelectorAll('.ag-row .ag-cell')];
    const seen = cells.flatMap((cell) => {
      const { left, top, width, height } = cell.getBoundingClientRect();
      const [x, y] = [left + width / 2, top + height / 2];
      const within = x > frame.left && x < frame.right && y > frame.top && y < frame.bottom;
      return within ? [{ cell, hit: document.elementFromPoint(x, y) }] : [];
    });
    if (seen.length < 20) return [`only ${seen.length} cells are in sight`];
    // The grid's own scroll bars lie over its edges; nothing else may.
    return seen.flatMap(({ cell, hit }) =>
      element.contains(hit) ? [] : [`${cell.textContent} is under ${hit?.className ?? 'nothing'}`],
    );
  });
}
