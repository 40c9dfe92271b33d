import * as Plot from '@observablehq/plot';
import { useEffect, useRef } from 'react';

interface ChartProps {
  /** What is seen, for whoever does not see it: the table behind it says the numbers. */
  readonly label: string;
  readonly options: Plot.PlotOptions;
}

/** A drawn chart, as wide as it has room; it follows the page's colors, also on paper. */
export function Chart({ label, options }: ChartProps) {
  const place = useRef<HTMLElement>(null);
  useEffect(() => {
    const here = place.current;
    if (here === null) return;
    let drawn: Element | undefined;
    let wide = 0;
    const draw = (): void => {
      const next = Math.max(280, Math.min(900, Math.floor(here.clientWidth)));
      if (next === wide) return;
      wide = next;
      drawn?.remove();
      drawn = Plot.plot({
        width: next,
        height: 280,
        marginLeft: 64,
        marginBottom: 40,
        style: {
          background: 'transparent',
          color: 'inherit',
          fontSize: '12px',
          fontFamily: 'inherit',
        },
        ariaLabel: label,
        ...options,
      });
      drawn.setAttribute('role', 'img');
      // What it is of is said of the whole; its parts have no words of their own.
      for (const part of drawn.querySelectorAll('[aria-label]')) part.removeAttribute('aria-label');
      here.append(drawn);
    };
    draw();
    const watch = new ResizeObserver(draw);
    watch.observe(here);
    return () => {
      watch.disconnect();
      drawn?.remove();
    };
  }, [label, options]);
  return <figure ref={place} className="whatif-chart" />;
}
