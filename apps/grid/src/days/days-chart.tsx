import { type Schedule, sayDay } from '@kerfbook/days';
import { WOOD_TONES, woodTone } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { useEffect, useRef } from 'react';
import { daysDrawn, drawDays } from './draw-days.ts';

interface DaysChartProps {
  readonly book: OpenWorkbook;
  readonly schedule: Schedule;
  readonly today: number;
}

/** A day is not drawn narrower than this, px: the chart is pushed aside instead. */
const NARROWEST = 26;
const WIDEST = 90;

/** The tone of the wood that is worked, light and dark. */
export function toneOf(book: OpenWorkbook): { readonly light: string; readonly dark: string } {
  const species = book.named('species');
  return WOOD_TONES[woodTone(species === undefined ? 'oak' : species.shown.text)];
}

/** The days of a job as bars, a row for each operation. */
export function DaysChart({ book, schedule, today }: DaysChartProps) {
  const place = useRef<HTMLElement>(null);
  const { light, dark } = toneOf(book);
  const { from, to } = daysDrawn(schedule);
  useEffect(() => {
    const here = place.current;
    if (here === null) return undefined;
    let drawn: Element | undefined;
    let wide = 0;
    const draw = (): void => {
      const next = Math.floor(here.clientWidth);
      if (next === wide || next === 0) return;
      wide = next;
      drawn?.remove();
      const names = Math.min(210, Math.max(110, Math.floor(next * 0.3)));
      const count = to - from + 1;
      const width = names + Math.min(count * WIDEST, Math.max(next - names - 8, count * NARROWEST));
      drawn = drawDays(schedule, {
        width,
        names,
        row: 34,
        wood: 'var(--days-wood)',
        today,
      });
      for (const part of drawn.querySelectorAll('[aria-label]')) part.removeAttribute('aria-label');
      // What is filled by a property stands in the chart's own style.
      here.style.setProperty('--days-wood', `light-dark(${light}, ${dark})`);
      drawn.setAttribute('role', 'img');
      drawn.setAttribute(
        'aria-label',
        `The operations over the days from ${sayDay(from)} to ${sayDay(to)}; the table below says the same.`,
      );
      here.append(drawn);
    };
    draw();
    const watch = new ResizeObserver(draw);
    watch.observe(here);
    return () => {
      watch.disconnect();
      drawn?.remove();
    };
  }, [schedule, today, light, dark, from, to]);
  return (
    <figure className="days-figure">
      {/* biome-ignore-start lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys. */}
      <section ref={place} className="days-chart" aria-label="Chart of the days" tabIndex={0} />
      {/* biome-ignore-end lint/a11y/noNoninteractiveTabindex: as above. */}
      <figcaption className="days-key">
        <span>
          <i
            className="days-sign days-sign-work"
            style={{ background: `light-dark(${light}, ${dark})` }}
          />{' '}
          worked at
        </span>
        <span>
          <i className="days-sign days-sign-wait" /> left alone
        </span>
        <span>
          <i className="days-sign days-sign-off" /> day off
        </span>
        <span>
          <i className="days-sign days-sign-end" /> promised
        </span>
        {today < from || today > to ? null : (
          <span>
            <i className="days-sign days-sign-today" /> today
          </span>
        )}
      </figcaption>
    </figure>
  );
}
