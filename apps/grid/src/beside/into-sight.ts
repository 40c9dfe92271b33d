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
  const under = Math.min(one.bottom - all.bottom, head - all.top);
  if (one.top < all.top) scroller.scrollTop += head - all.top;
  else if (under > 0) scroller.scrollTop += under;
}
