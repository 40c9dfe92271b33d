let tell: () => void = () => undefined;

/** Longest wait for the cells of a grid, in ms; one without any row in sight draws none. */
const AT_MOST = 2000;

const painted = new Promise<void>((resolve) => {
  tell = resolve;
});

/** For the grid: it is about to be made. */
export function gridComes(): void {
  setTimeout(tell, AT_MOST);
}

/** For the grid: its first cells are drawn. */
export function gridIsDrawn(): void {
  tell();
}

/**
 * Resolves in the first idle moment after the frame that shows the first cells. What is not needed for
 * that frame is loaded from then on: a maker sees and uses the cells first.
 */
export const afterGrid: Promise<void> = painted.then(nextFrame);

function nextFrame(): Promise<void> {
  return new Promise((resolve) => {
    // A hidden page draws no frames.
    const soon = setTimeout(resolve, 500);
    requestAnimationFrame(() =>
      setTimeout(() => {
        clearTimeout(soon);
        if ('requestIdleCallback' in window) requestIdleCallback(() => resolve(), { timeout: 300 });
        else resolve();
      }),
    );
  });
}

/**
 * Loads a part of the app that a maker may ask for next: after the grid is there, or at once when it is
 * asked for before. Where it does not arrive, the next who asks tries again. For what is drawn from the
 * start, wait for {@link afterGrid} instead.
 */
export function afterGridPart<T>(load: () => Promise<T>): () => Promise<T> {
  let part: Promise<T> | undefined;
  const ask = (): Promise<T> => {
    part ??= load().catch((error: unknown) => {
      part = undefined;
      throw error;
    });
    return part;
  };
  void afterGrid.then(() => ask().catch(() => undefined));
  return ask;
}
