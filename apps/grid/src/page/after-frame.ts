/** A page that is hidden, or that has nothing to paint for so long, is not waited for, ms. */
const AT_MOST = 100;

/** Resolves once the next frame has been painted. */
export const afterFrame = (): Promise<void> =>
  new Promise((resolve) => {
    // A frame's callbacks run before it is painted; the next task after it.
    requestAnimationFrame(() => setTimeout(resolve));
    setTimeout(resolve, AT_MOST);
  });
