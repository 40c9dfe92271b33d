/** How many scrolls after each other are scrolling on: a page or a row further is one. */
const SCROLLS = 3;
/** Milliseconds without a scroll after which it has come to rest. */
const REST = 200;

/**
 * Tells the styles while a grid is scrolled up or down and on: its host is `runs-along` then. What
 * sticks to the grid's side is a layer of its own in every row, and parts each row from the next, so
 * that browsers spend more on layers than on cells. While only the rows move, `--across`, how far the
 * columns are scrolled, px, holds it in place as well; as soon as they move too it sticks again.
 * @returns ends it
 */
export function watchScrolling(host: HTMLElement): () => void {
  const viewport = host.querySelector('.ag-grid-viewport');
  if (viewport === null) throw new Error('the grid has nothing that scrolls');
  let [scrolls, left, told] = [0, 0, 0];
  let timer: ReturnType<typeof setTimeout> | undefined;
  let last = 0;
  const rest = (): void => {
    // One timer for many scrolls: it looks whether it was meant.
    const more = last + REST - performance.now();
    timer = more > 0 ? setTimeout(rest, more) : undefined;
    if (timer !== undefined) return;
    scrolls = 0;
    host.classList.remove('runs-along');
  };
  const scrolled = (): void => {
    last = performance.now();
    timer ??= setTimeout(rest, REST);
    const now = viewport.scrollLeft;
    if (now !== left) {
      left = now;
      scrolls = 0;
      host.classList.remove('runs-along');
      return;
    }
    scrolls += 1;
    if (scrolls !== SCROLLS) return;
    if (told !== left) host.style.setProperty('--across', `${left}px`);
    told = left;
    host.classList.add('runs-along');
  };
  // Before the grid hears of it and writes: where the columns stand is known until then.
  viewport.addEventListener('scroll', scrolled, { capture: true, passive: true });
  return () => {
    clearTimeout(timer);
    viewport.removeEventListener('scroll', scrolled, true);
  };
}
