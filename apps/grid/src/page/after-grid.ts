let tell: () => void = () => undefined;

/** Longest wait for the cells of a grid, in ms: one in a window without height draws none. */
const AT_MOST = 10_000;

const painted = new Promise<void>((resolve) => {
  tell = resolve;
});

/** For the grid: it is made, with rows to draw or without any. */
export function gridIsMade(hasRows: boolean): void {
  if (hasRows) setTimeout(tell, AT_MOST);
  else tell();
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
    const idle = (): void => {
      if ('requestIdleCallback' in window) requestIdleCallback(() => resolve(), { timeout: 300 });
      else resolve();
    };
    requestAnimationFrame(() => setTimeout(idle));
    // A hidden page draws no frames; one that is in sight may take long to, and is waited for.
    if (document.hidden) resolve();
    document.addEventListener('visibilitychange', () => resolve(), { once: true });
  });
}

/**
 * Loads a part of the app that a maker may ask for next: after the grid is there, or at once when it is
 * asked for before. Where it does not arrive, the next who asks tries again. For what is drawn from the
 * start, wait for {@link afterGrid} instead.
 */
export function afterGridModule<T>(load: () => Promise<T>): () => Promise<T> {
  let module: Promise<T> | undefined;
  const ask = (): Promise<T> => {
    module ??= load().catch((error: unknown) => {
      module = undefined;
      throw error;
    });
    return module;
  };
  void afterGrid.then(() => ask().catch(() => undefined));
  return ask;
}
