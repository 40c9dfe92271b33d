import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { needs, numberOf, wordsOf } from './named-cells.ts';
import { n, Picture, type Spot } from './picture.ts';
import { measureOf, type Plate, plated, ROOM } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, line, size, stroke, wood } from './strokes.ts';

/** More coats than these are not drawn one by one. */
const MOST = 8;

/** When each coat goes on, and that both faces get the same. */
export function coatsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const coats = numberOf(source, 'coats');
  if (coats === undefined || !Number.isInteger(coats) || coats < 1)
    return needs('the coats', ['coats']);
  const wait = numberOf(source, 'recoat_hours');
  const words = wordsOf(source, 'recoat_hours');
  const hours = (count: number): string | undefined =>
    wait === undefined ? undefined : `${Number((count * wait).toPrecision(6))} h`;
  const timed = wait !== undefined && wait > 0;
  return plated(
    stage,
    step,
    [...bothFaces(stage), timeline(stage, coats, timed ? words : undefined, hours)],
    {
      says: `${coats === 1 ? 'One coat' : `${coats} coats`} on all faces alike${timed && words !== undefined ? `, ${words} to dry after each` : ''}.`,
      caption: `The time is counted from the first coat${timed ? '' : '; the can says how long each dries'}. Dry is not cured yet.`,
      lines: coats > MOST ? [`${coats} coats in all`] : [],
      drawn: [measureOf(stage, step, 'coats'), measureOf(stage, step, 'recoat_hours')],
    },
  );
}

/** A panel cut open, with the film around it. */
function bothFaces(stage: Stage): readonly Plate[] {
  const panel = stage.plan.parts.parts.find(({ name }) => /top|panel|seat|door|shelf/i.test(name));
  if (panel === undefined) return [];
  const [wide, high, film] = [190, 26, 4];
  return [
    {
      wide,
      high: high + 2 * film,
      body: [
        stroke('kb-new', box(0, 0, wide, high + 2 * film)),
        wood(
          panel.material,
          box(film, film, wide - 2 * film, high),
          stage.options.print === true,
          5,
        ),
      ],
      names: [
        { words: 'The same on both faces', spots: [[wide * 0.3, 1]] },
        { words: `${panel.name}, cut open`, spots: [[wide * 0.7, high * 0.7]] },
      ],
    },
  ];
}

function timeline(
  { speak }: Stage,
  coats: number,
  wait: string | undefined,
  hours: (count: number) => string | undefined,
): Plate {
  const stops = Math.min(coats, MOST) + 1;
  const apart = Math.min(92, (ROOM - 64) / Math.max(1, stops - 1));
  const left = 30;
  const [y, r] = [10, 7];
  const words = new Picture(speak);
  const xOf = (stop: number): number => left + stop * apart;
  // Of more than are drawn, the first ones and the last one are: the line between them is broken.
  const leftOut = coats > MOST;
  const whole = leftOut ? MOST - 2 : stops - 1;
  const body: string[] = [
    stroke('kb-new', line([left, y], [xOf(whole), y])),
    ...(leftOut
      ? [
          stroke('kb-hidden', line([xOf(whole), y], [xOf(whole + 1), y])),
          stroke('kb-new', line([xOf(whole + 1), y], [xOf(stops - 1), y])),
        ]
      : []),
  ];
  for (let i = 0; i < stops; i += 1) {
    const x = xOf(i);
    const last = i === stops - 1;
    // How many coats are on by then.
    const before = i > whole ? coats - (stops - 1 - i) : i;
    body.push(
      `<circle class="${last ? 'kb-open' : 'kb-iron'}" fill="${last ? 'none' : 'currentColor'}" stroke="currentColor" cx="${n(x)}" cy="${n(y)}" r="${last ? r - 1 : r - 2}"/>`,
    );
    words.text(
      x,
      y + 22,
      last ? 'Dry' : apart > 46 ? `Coat ${before + 1}` : String(before + 1),
      'middle',
    );
    const after = wait === undefined ? undefined : hours(before);
    if (after !== undefined && i > 0 && apart > 34) words.text(x, y + 36, after, 'middle');
  }
  const first: Spot = [left + apart * 0.5, y];
  return {
    wide: left * 2 + apart * (stops - 1),
    high: y + 40,
    body: [
      ...body,
      ...(wait === undefined ? [] : [size([left + r, y - 6], [left + apart - r, y - 6])]),
      ...words.parts,
    ],
    names: wait === undefined ? [] : [{ words: `Dries ${wait}`, spots: [[first[0], y - 6]] }],
  };
}
