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

/**
 * The same for cells of the grid whose middle lies within its own frame.
 * @param rows so many rows must be whole in sight; one with a note of several lines counts as often as usual ones have
 *   room in it. At a desk the better part of the screen is the grid. A tablet
 *   shows the drawing as well and may have the pad for numbers open, and rows are as high as a finger: the row that
 *   is changed with what stands over and under it are enough to know where one is. The same goes for a phone, where
 *   whatever else is open gives way first.
 */
export function coveredCells(grid: Locator, rows: number): Promise<readonly string[]> {
  return grid.evaluate((element, least) => {
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
    const heads = element.querySelector('.ag-header')?.getBoundingClientRect().bottom ?? frame.top;
    const boxes = [...element.querySelectorAll('.ag-row .row-number')].map((one) =>
      one.getBoundingClientRect(),
    );
    const usual = Math.min(...boxes.map(({ height }) => height));
    const whole = boxes
      .filter(({ top, bottom }) => top >= heads - 1 && bottom <= frame.bottom + 1)
      .reduce((sum, { height }) => sum + Math.floor(height / usual), 0);
    if (whole < least) return [`only ${whole} rows are in sight`];
    // The grid's own scroll bars lie over its edges; nothing else may.
    return seen.flatMap(({ cell, hit }) =>
      element.contains(hit) ? [] : [`${cell.textContent} is under ${hit?.className ?? 'nothing'}`],
    );
  }, rows);
}
