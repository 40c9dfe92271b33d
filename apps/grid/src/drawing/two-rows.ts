import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

/** More rows than two, in heights of the first thing in them. */
const TOO_HIGH = 2.5;

/**
 * Whether what stands in an element has to be folded, so that it takes no more than two rows: the drawing under it is
 * what is looked at. Unfolded again as soon as there is more room than was too little.
 * @param mayFold false: it never is
 */
export function useTwoRows(mayFold: boolean): readonly [RefObject<HTMLDivElement | null>, boolean] {
  const element = useRef<HTMLDivElement>(null);
  /** The width that was too little, px. */
  const [narrow, setNarrow] = useState<number>();
  useLayoutEffect(() => {
    const tools = element.current;
    if (tools === null || !mayFold) return undefined;
    const look = (): void => {
      const { clientWidth, clientHeight, firstElementChild: first } = tools;
      const row = first instanceof HTMLElement ? first.offsetHeight : 0;
      if (narrow === undefined && clientHeight > TOO_HIGH * row) setNarrow(clientWidth);
      else if (narrow !== undefined && clientWidth > narrow) setNarrow(undefined);
    };
    look();
    if (typeof ResizeObserver === 'undefined') return undefined;
    const watch = new ResizeObserver(look);
    watch.observe(tools);
    return () => watch.disconnect();
  }, [mayFold, narrow]);
  return [element, mayFold && narrow !== undefined];
}
