import type { Part } from '@kerfbook/drawing';
import { type BuiltStep, partsByName, partsNamed } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf } from './named-cells.ts';
import { FIGURE, n, Picture, type Spot } from './picture.ts';
import { measureAs, type Plate, plated, ROOM, said } from './plate.ts';
import type { Stage } from './stage.ts';
import { line, ring, size, wood } from './strokes.ts';

/** A rough board on its way: which of its sides are true by then, the one that is made now last. */
const STAGES = [
  { says: '1 One face', made: ['below'] },
  { says: '2 One edge', made: ['below', 'left'] },
  { says: '3 Other face', made: ['below', 'left', 'above'] },
  { says: '4 Other edge', made: ['below', 'left', 'above', 'right'] },
] as const;

const NO_PARTS =
  'its figure shows how thick boards are planed and knows no part. Fill in the parts table, or write milling: and the parts, such as milling: Top, Long apron.';

/** More thicknesses than these are told by their number alone. */
const MOST_LINES = 8;

/** The end of a board from rough to square, in the order it is done, and how thick each part is planed. */
export function millingFigure(stage: Stage, step: BuiltStep): Figure | string {
  const parts = milledIn(stage, step);
  const [first] = parts;
  if (first === undefined) return NO_PARTS;
  const rough = lengthOf(stage.source, 'rough_thickness');
  const { thick, wide } = sectionOf(stage, first);
  const column = ROOM / STAGES.length;
  const gap = 12;
  const scale = Math.min((column - gap) / wide, 56 / Math.max(thick, rough ?? 0));
  const [across, high] = [Math.max(34, wide * scale), Math.max(9, thick * scale)];
  const over = Math.max(3, Math.min(8, ((rough ?? thick * 1.25) - thick) * scale * 0.5));
  const print = stage.options.print === true;
  const words = new Picture(stage.speak);
  const body = STAGES.flatMap(({ says, made }, i) => {
    const left = i * column + (column - across) / 2;
    words.text(i * column + column / 2, high + 3 * over + 18, says, 'middle');
    const sides = sidesOf(left, over + 4, across, high, over, made);
    const now = made.at(-1);
    return [
      wood(first.material, ring(sides.all), print, 5),
      now === undefined ? '' : thickLine(sides.made[now]),
    ];
  });
  const last = (STAGES.length - 1) * column + (column - across) / 2;
  const base = over + 4;
  const plate: Plate = {
    wide: ROOM,
    high: high + 3 * over + 22,
    body: [
      ...body,
      ...words.parts,
      size([last, base - 4], [last + across, base - 4]),
      size([last + across + 4, base], [last + across + 4, base + high]),
    ],
    names: [
      { words: `Wide ${said(stage, wide)}`, spots: [[last + across / 2, base - 4]] },
      { words: `Thick ${said(stage, thick)}`, spots: [[last + across + 4, base + high / 2]] },
    ],
  };
  const lines = thicknesses(stage, parts);
  const told = [wide, ...parts.map((part) => sectionOf(stage, part).thick)];
  const drawn = step.measures.filter((one) =>
    told.some((mm) => measureAs(stage, { ...step, measures: [one] }, mm) !== undefined),
  );
  return plated(stage, step, [plate], {
    says: `The end of a board of ${first.name}: one face is made flat, then one edge square to it, then the other face and the other edge parallel to them. It comes to ${said(stage, thick)} thick and ${said(stage, wide)} wide.`,
    caption: `The heavy line is what is made flat or square then. Drawn here: ${first.name}.`,
    lines: [
      ...(rough === undefined ? [] : [`Rough boards: ${said(stage, rough)} thick`]),
      ...lines,
    ],
    drawn,
  });
}

/** Parts that are named, else those that the step builds, else all. */
export function milledIn({ plan }: Stage, { figure, parts }: BuiltStep): readonly Part[] {
  if (figure.of !== undefined) {
    const words = figure.of.split(',').map((one) => one.trim());
    return partsNamed(words, partsByName(plan.parts)).parts;
  }
  return parts.length > 0 ? parts : plan.parts.parts;
}

/** As boards lie at the planer: of a panel one of its boards, before it is flattened. */
export function sectionOf(
  { source }: Stage,
  { panelBoards, thickness, width, name }: Part,
): { readonly thick: number; readonly wide: number } {
  // The ends of a breadboard top go through the planer with its boards.
  const goesAlong = /\bend\b/i.test(name) && lengthOf(source, 'end_tenon') !== undefined;
  if (panelBoards === undefined && goesAlong) {
    return { thick: lengthOf(source, 'planed_thickness') ?? thickness, wide: width };
  }
  if (panelBoards === undefined) {
    return { thick: Math.min(thickness, width), wide: Math.max(thickness, width) };
  }
  if (panelBoards.thickness !== undefined) {
    return { thick: panelBoards.thickness, wide: panelBoards.width };
  }
  const planed = /top|panel|shelf|seat|^side$|^bottom$/i.test(name)
    ? lengthOf(source, 'planed_thickness')
    : undefined;
  return { thick: Math.max(planed ?? 0, thickness), wide: panelBoards.width };
}

type Side = 'below' | 'left' | 'above' | 'right';

/** A section whose sides that are not true yet bulge and lean out. */
function sidesOf(
  x: number,
  y: number,
  wide: number,
  high: number,
  over: number,
  made: readonly Side[],
): { readonly all: readonly Spot[]; readonly made: Readonly<Record<Side, readonly [Spot, Spot]>> } {
  const is = (side: Side): boolean => made.includes(side);
  const [left, right] = [is('left') ? x : x - 3, is('right') ? x + wide : x + wide + 3];
  const lean = is('left') ? 0 : 2;
  const above = is('above') ? y : y - over;
  const below = is('below') ? y + high : y + high + over * 0.6;
  const steps = 8;
  const wave = (from: number, to: number, at: number, bow: number): Spot[] =>
    Array.from({ length: steps + 1 }, (_, i): Spot => {
      const share = i / steps;
      return [from + (to - from) * share, at - bow * Math.sin(Math.PI * share)];
    });
  const all = [
    ...wave(left + lean, right, above, is('above') ? 0 : -over * 0.6),
    ...wave(right, left, below, is('below') ? 0 : over * 0.6),
  ];
  return {
    all,
    made: {
      below: [
        [left, below],
        [right, below],
      ],
      left: [
        [left, above],
        [left, below],
      ],
      above: [
        [left, above],
        [right, above],
      ],
      right: [
        [right, above],
        [right, below],
      ],
    },
  };
}

const thickLine = ([from, to]: readonly [Spot, Spot]): string =>
  `<path class="kb-heavy" fill="none" stroke="currentColor" stroke-width="${n(FIGURE.text * 0.3)}" d="${line(from, to)}"/>`;

/** `Long apron, Short apron: 3/4 in thick`, for what is planed alike. */
function thicknesses(stage: Stage, parts: readonly Part[]): readonly string[] {
  const alike = new Map<string, string[]>();
  for (const part of parts) {
    const { thick } = sectionOf(stage, part);
    const key = said(stage, thick);
    const name = part.panelBoards === undefined ? part.name : `${part.name} (boards)`;
    const own = alike.get(key);
    if (own === undefined) alike.set(key, [name]);
    else if (!own.includes(name)) own.push(name);
  }
  return [...alike]
    .slice(0, MOST_LINES)
    .map(([thick, names]) => `${names.join(', ')}: plane to ${thick}`);
}
