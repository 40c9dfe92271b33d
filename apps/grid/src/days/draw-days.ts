import { type Placed, type Schedule, sayDay, takesTime, WEEKDAYS, weekdayOf } from '@kerfbook/days';
import * as Plot from '@observablehq/plot';

/** How a plan is drawn. */
interface DaysLook {
  /** px. */
  readonly width: number;
  /** px for the names of operations. */
  readonly names: number;
  /** Height of a row, px. */
  readonly row: number;
  /** What fills the hours of work: a color, or a custom property that holds one. */
  readonly wood: string;
  /** The day it is, where it is to be marked. */
  readonly today?: number;
  /** The first and the last day that are drawn; all of the plan where left out. */
  readonly from?: number;
  readonly to?: number;
}

/** Of a day's width so much is for the hours before work, at work and after it: what is done matters more than the night. */
const BEFORE = 0.06;
const AT_WORK = 0.74;

/** Where a moment stands along the days, in days: hours of work are drawn wider than the night. */
function placeOf(schedule: Schedule, seconds: number): number {
  const { calendar } = schedule.inside;
  const day = Math.floor(seconds / 86_400);
  const share = seconds / 86_400 - day;
  if (!calendar.isWorked(day)) return day + share;
  const opens = calendar.opens(day) / 86_400 - day;
  const closes = calendar.closes(day) / 86_400 - day;
  if (share <= opens) return day + (opens === 0 ? BEFORE : (share / opens) * BEFORE);
  if (share < closes) return day + BEFORE + ((share - opens) / (closes - opens)) * AT_WORK;
  const night = 1 - BEFORE - AT_WORK;
  return day + BEFORE + AT_WORK + (closes >= 1 ? night : ((share - closes) / (1 - closes)) * night);
}

interface Bar {
  readonly row: string;
  readonly from: number;
  readonly to: number;
}

/** Stretches in which an operation is worked at, one for each day. */
function atWork(schedule: Schedule, { seconds, operation }: Placed): readonly Bar[] {
  const { calendar } = schedule.inside;
  const bars: Bar[] = [];
  if (operation.handsOn === 0) return bars;
  for (let day = Math.floor(seconds.start / 86_400); day * 86_400 < seconds.worked; day += 1) {
    if (!calendar.isWorked(day)) continue;
    const from = Math.max(seconds.start, calendar.opens(day));
    const to = Math.min(seconds.worked, calendar.closes(day));
    if (from < to)
      bars.push({ row: operation.id, from: placeOf(schedule, from), to: placeOf(schedule, to) });
  }
  return bars;
}

/** The days that a drawing goes through, from the first on which anything is done to the one that is promised. */
export function daysDrawn(schedule: Schedule): { readonly from: number; readonly to: number } {
  const last = Math.max(
    schedule.begins,
    ...schedule.jobs.map(({ promise }) => promise),
    ...schedule.placed.map(({ end }) => end.day),
  );
  return { from: schedule.begins, to: last };
}

let drawings = 0;

/** A plan as bars over its days: a row for each operation, work filled, waiting hatched, days off in a quiet tint. */
export function drawDays(schedule: Schedule, look: DaysLook): SVGSVGElement | HTMLElement {
  const { width, names, row, wood, today } = look;
  const whole = daysDrawn(schedule);
  const [from, to] = [look.from ?? whole.from, look.to ?? whole.to];
  const placed = schedule.placed
    .filter(({ operation }) => takesTime(operation))
    .filter(({ start, end }) => start.day <= to && end.day >= from);
  const days = Array.from({ length: to - from + 1 }, (_, i) => from + i);
  const nameOf = new Map(placed.map(({ operation: { id, name } }) => [id, name]));
  const work = placed.flatMap((one) => atWork(schedule, one));
  const waiting = placed.flatMap(({ operation, seconds }) =>
    operation.waiting === 0
      ? []
      : [
          {
            row: operation.id,
            from: placeOf(schedule, seconds.worked),
            to: placeOf(schedule, seconds.end),
          },
        ],
  );
  const inside = (bars: readonly Bar[]): readonly Bar[] =>
    bars.flatMap((bar) => {
      const cut = { ...bar, from: Math.max(bar.from, from), to: Math.min(bar.to, to + 1) };
      return cut.from < cut.to ? [cut] : [];
    });
  const off = days.filter((day) => !schedule.inside.calendar.isWorked(day));
  const wide = (width - names) / days.length;
  drawings += 1;
  const hatch = `days-hatch-${drawings}`;
  const promise = schedule.jobs[0]?.promise;
  const marks: Plot.Markish[] = [
    () => hatched(hatch),
    Plot.rect(off, {
      x1: (day) => day,
      x2: (day) => day + 1,
      fill: 'currentColor',
      fillOpacity: 0.1,
    }),
    Plot.ruleX(days, { x: (day) => day, stroke: 'currentColor', strokeOpacity: 0.18 }),
    Plot.ruleY(placed, {
      y: ({ operation }: Placed) => operation.id,
      stroke: 'currentColor',
      strokeOpacity: 0.12,
    }),
    Plot.barX(inside(waiting), {
      y: 'row',
      x1: 'from',
      x2: 'to',
      fill: `url(#${hatch})`,
      stroke: 'currentColor',
      strokeWidth: 0.75,
      insetTop: row * 0.2,
      insetBottom: row * 0.2,
    }),
    Plot.barX(inside(work), {
      y: 'row',
      x1: 'from',
      x2: 'to',
      fill: wood,
      stroke: 'currentColor',
      strokeWidth: 1.25,
      insetTop: row * 0.1,
      insetBottom: row * 0.1,
    }),
  ];
  if (promise !== undefined && promise >= from && promise <= to) {
    marks.push(
      Plot.ruleX([promise + 1], { stroke: 'currentColor', strokeWidth: 2.5, insetBottom: -4 }),
    );
  }
  if (today !== undefined && today >= from && today <= to) {
    marks.push(
      Plot.ruleX([today + BEFORE], {
        stroke: 'currentColor',
        strokeWidth: 1.5,
        strokeDasharray: '3 3',
      }),
    );
  }
  return Plot.plot({
    width,
    height: 48 + row * Math.max(1, placed.length),
    marginLeft: names,
    marginTop: 40,
    marginBottom: 6,
    marginRight: 4,
    style: {
      background: 'transparent',
      color: 'inherit',
      fontSize: '13px',
      fontFamily: 'inherit',
      overflow: 'visible',
    },
    x: { domain: [from, to + 1], axis: null },
    y: {
      domain: placed.map(({ operation }) => operation.id),
      padding: 0,
      label: null,
      axis: null,
    },
    marks: [
      ...marks,
      Plot.axisY({
        anchor: 'left',
        label: null,
        tickSize: 0,
        tickPadding: 6,
        tickFormat: (id: string) => nameOf.get(id) ?? '',
        // Two lines of a long name fit a row; where there is room for it all, it stands in one.
        lineWidth: (names - 8) / 12,
        lineHeight: 1,
        fontSize: names < 150 ? 12 : 13,
      }),
      Plot.text(
        days.filter((day) => isHeaded(day, from, wide)),
        {
          x: (day: number) => (wide >= 30 ? day + 0.5 : day),
          frameAnchor: 'top',
          textAnchor: wide >= 30 ? 'middle' : 'start',
          dy: -34,
          lineAnchor: 'top',
          lineHeight: 1.15,
          text: (day: number) => headOf(day, from, wide),
          fontSize: 12,
          fillOpacity: 1,
        } as Plot.TextOptions,
      ),
    ],
  }) as SVGSVGElement | HTMLElement;
}

/** Where days are narrow only Mondays are headed. */
const isHeaded = (day: number, from: number, wide: number): boolean =>
  wide >= 30 || weekdayOf(day) === 0 || (day === from && weekdayOf(day) < 5);

/** The day of the week over the day, with its month where it begins. */
function headOf(day: number, from: number, wide: number): string {
  const [, inMonth = '', month = ''] = sayDay(day).split(' ');
  if (wide < 30) return `\n${inMonth} ${month}`;
  const named = day === from || inMonth === '1' || wide >= 56;
  return `${WEEKDAYS[weekdayOf(day)]}\n${inMonth}${named ? ` ${month}` : ''}`;
}

const SVG = 'http://www.w3.org/2000/svg';

function hatched(id: string): SVGElement {
  const make = (name: string, traits: Readonly<Record<string, string>>): SVGElement => {
    const element = document.createElementNS(SVG, name) as SVGElement;
    for (const [trait, value] of Object.entries(traits)) element.setAttribute(trait, value);
    return element;
  };
  const pattern = make('pattern', {
    id,
    width: '6',
    height: '6',
    patternUnits: 'userSpaceOnUse',
    patternTransform: 'rotate(45)',
  });
  pattern.append(
    make('line', {
      x1: '0',
      y1: '0',
      x2: '0',
      y2: '6',
      stroke: 'currentColor',
      'stroke-width': '1.5',
      'stroke-opacity': '0.55',
    }),
  );
  const defs = make('defs', {});
  defs.append(pattern);
  return defs;
}
