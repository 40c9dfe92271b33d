/** Left free beyond what is brought into sight, px: its last line would stand on the edge. */
const AIR = 8;

/** What a maker does who goes on from there; scrolling by hand is one of them. */
const GOES_ON = ['pointerdown', 'wheel', 'keydown'] as const;

/**
 * Scrolls what it stands in, and nothing around that, so far that its head is seen, and that of the fold over it
 * where it comes first in there.
 */
export function bringIntoSight(element: Element | null): void {
  const scroller = element?.closest('.beside-body');
  if (!element || !scroller || scroller.clientHeight === 0) return;
  const first = element.previousElementSibling === null ? element.closest('.fold') : null;
  const head = (first ?? element).getBoundingClientRect().top;
  const [one, all] = [element.getBoundingClientRect(), scroller.getBoundingClientRect()];
  // A line may lie over its top; without one this is "auto".
  const top = all.top + (Number.parseFloat(getComputedStyle(scroller).scrollPaddingTop) || 0);
  const under = Math.min(one.bottom + AIR - all.bottom, head - top);
  if (one.top < top) scroller.scrollTop += head - top;
  else if (under > 0) scroller.scrollTop += under;
}

/**
 * Brings it into sight and gives it the focus, and both again until the maker goes on: the cell gone to is explained
 * over the checks, some frames later than it is gone to, and a sheet that has just been turned to gives the focus to
 * that cell when it is drawn, which on a slow machine is later still.
 * @returns what ends it sooner
 */
export function holdInSight(element: HTMLElement): () => void {
  const scroller = element.closest('.beside-body');
  const moved = new ResizeObserver(() => bringIntoSight(element));
  for (const one of [scroller, ...(scroller?.children ?? [])]) if (one) moved.observe(one);
  const focus = (): void => element.focus({ preventScroll: true });
  const stay = ({ target }: FocusEvent): void => {
    if (target instanceof Element && target.matches('.ag-cell')) focus();
  };
  focus();
  document.addEventListener('focusin', stay);
  const end = (): void => {
    moved.disconnect();
    document.removeEventListener('focusin', stay);
    for (const does of GOES_ON) window.removeEventListener(does, end, true);
  };
  for (const does of GOES_ON) window.addEventListener(does, end, { capture: true, passive: true });
  return end;
}
