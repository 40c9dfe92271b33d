import type { Part } from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import type { Measure } from '../steps/read-steps.ts';
import type { Figure } from './figure.ts';
import { milledIn } from './milling.ts';
import { lengthOf, numberOf, wordsOf } from './named-cells.ts';
import { n, type Spot } from './picture.ts';
import {
  across,
  measureAs,
  measureOf,
  nameOf,
  type Plate,
  plated,
  ROOM,
  said,
  upright,
} from './plate.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, size, stroke, wood } from './strokes.ts';

/** A panel that is worked on as a whole, lying flat, is drawn no higher than this, units. */
const HIGH = 116;
const MOST_PANELS = 2;

const NO_PANEL =
  'its figure shows a panel from above, and the parts table has no such part. Write the part behind it, such as squaring: Top.';

/** Parts that are panels: named ones, those the step builds, else what is glued up or called so. */
function panelsOf(stage: Stage, step: BuiltStep): readonly Part[] {
  const named = milledIn(stage, step);
  if (step.figure.of !== undefined) return named.slice(0, MOST_PANELS);
  const found = named.filter(
    ({ name, panelBoards }) => panelBoards !== undefined || /top|panel|seat|shelf/i.test(name),
  );
  return found.slice(0, 1);
}

const scaleOf = ({ length, width }: Pick<Part, 'length' | 'width'>, more = 0): number =>
  Math.min((ROOM - 60) / (length + more), HIGH / (width + more));

/** A panel cut to its size and square: both sizes, and the diagonals that tell. */
export function squaringFigure(stage: Stage, step: BuiltStep): Figure | string {
  const panels = panelsOf(stage, step);
  if (panels.length === 0) return NO_PANEL;
  const taken: Measure[] = [];
  const take = (mm: number): void => {
    const found = measureAs(stage, step, mm, taken);
    if (found !== undefined) taken.push(found);
  };
  const told = panels.map((panel) => {
    const { length, width } = panel;
    take(length);
    take(width);
    return { panel, diagonal: said(stage, Math.hypot(length, width)) };
  });
  const prefix = (panel: Part): string => (panels.length === 1 ? '' : `${panel.name}: `);
  const plates = told.map(({ panel, diagonal }): Plate => {
    const { length, width, panelBoards, material } = panel;
    const scale = scaleOf(panel, 0.04 * length);
    const [wide, high] = [length * scale, width * scale];
    const trimmed = panelBoards === undefined ? 0 : Math.max(0, panelBoards.length - length) / 2;
    const rough = Math.min(14, Math.max(trimmed * scale, trimmed > 0 ? 4 : 0));
    const [x, y] = [rough, 3];
    const right = x + wide;
    return {
      wide: wide + 2 * rough + 16,
      high: high + 20,
      body: [
        rough > 0 ? stroke('kb-hidden', box(0, y, wide + 2 * rough, high)) : '',
        wood(material, box(x, y, wide, high), stage.options.print === true, 5),
        stroke('kb-center', `${line([x, y], [right, y + high])}${line([x, y + high], [right, y])}`),
        across(x, right, y + high + 11, -8),
        upright(y, y + high, right + rough + 9, -(rough + 6)),
      ],
      names: [
        {
          words: `${prefix(panel)}both diagonals ${diagonal}`.replace(/^b/, 'B'),
          spots: [
            [x + wide * 0.3, y + high * 0.3],
            [x + wide * 0.7, y + high * 0.3],
          ],
        },
        { words: `Long ${said(stage, length)}`, spots: [[x + wide * 0.5, y + high + 11]] },
        { words: `Wide ${said(stage, width)}`, spots: [[right + rough + 9, y + high * 0.5]] },
      ],
    };
  });
  const isTrimmed = panels.some(({ panelBoards, length }) => (panelBoards?.length ?? 0) > length);
  return plated(stage, step, plates, {
    says: told
      .map(
        ({ panel, diagonal }) =>
          `${panel.name} from above, ${said(stage, panel.length)} long and ${said(stage, panel.width)} wide; both diagonals are ${diagonal}.`,
      )
      .join(' '),
    caption: isTrimmed
      ? 'The dashed line is what is cut off at the ends. Diagonals that are alike say it is square.'
      : 'Diagonals that are alike say it is square.',
    drawn: taken,
  });
}

/** How a panel is made flat: winding sticks at its ends, strokes across and then along, and what may come off. */
export function flatteningFigure(stage: Stage, step: BuiltStep): Figure | string {
  const [panel] = panelsOf(stage, step);
  if (panel === undefined) return NO_PANEL;
  const scale = scaleOf(panel);
  const [wide, high] = [panel.length * scale, Math.max(30, panel.width * scale)];
  const stick = 9;
  const print = stage.options.print === true;
  let strokes = '';
  for (let x = wide * 0.2; x < wide * 0.55; x += 14) {
    strokes += line([x, high * 0.88], [Math.min(x + high * 0.42, wide), high * 0.12]);
  }
  const above: Plate = {
    wide: wide + 2,
    high: high + 12,
    body: [
      wood(panel.material, box(0, 6, wide, high), print, 5),
      `<g transform="translate(0 6)">${stroke('kb-quiet', strokes)}${size([wide * 0.62, high * 0.5], [wide * 0.86, high * 0.5])}</g>`,
      iron(box(wide * 0.05, 1, stick * 0.5, high + 10)),
      iron(box(wide * 0.95 - stick * 0.5, 1, stick * 0.5, high + 10)),
    ],
    names: [
      {
        words: 'Winding sticks',
        spots: [
          [wide * 0.05 + 2, 6],
          [wide * 0.95 - 2, 6],
        ],
      },
      { words: '1 Across the grain', spots: [[wide * 0.34, high * 0.75]] },
      { words: '2 Along it', spots: [[wide * 0.74, 6 + high * 0.5]] },
    ],
  };
  const [planed, final] = [lengthOf(stage.source, 'planed_thickness'), panel.thickness];
  const spare = planed === undefined ? 0 : planed - final;
  // What is said to be as thick as it is to be has nothing to come off.
  const comesOff =
    planed !== undefined && spare > 0.3 && said(stage, planed) !== said(stage, final);
  const plates = comesOff ? [above, offBoth(stage, panel, planed)] : [above];
  return plated(stage, step, plates, {
    says: `${panel.name} from above, a winding stick near each end; first planed across the grain, then along it.${comesOff ? ` It is ${said(stage, planed)} thick now and comes to ${said(stage, final)}.` : ''}`,
    caption:
      'Look over the near stick at the far one: where they are not parallel, the panel winds.',
    drawn:
      plates.length < 2
        ? []
        : [measureOf(stage, step, 'planed_thickness'), measureAs(stage, step, final)],
  });
}

/** The end of a panel with what comes off its faces. */
function offBoth(stage: Stage, { material, thickness }: Part, planed: number): Plate {
  const scale = 34 / planed;
  const [wide, high, off] = [150, planed * scale, ((planed - thickness) * scale) / 2];
  return {
    wide: wide + 28,
    high,
    body: [
      stroke('kb-hidden', box(14, 0, wide, high)),
      wood(material, box(14, off, wide, high - 2 * off), stage.options.print === true, 5),
      size([6, 0], [6, high]),
      size([wide + 22, off], [wide + 22, high - off]),
    ],
    names: [
      { words: `Now ${said(stage, planed)}`, spots: [[6, high / 2]] },
      { words: `Ends at ${said(stage, thickness)}`, spots: [[wide + 22, high / 2]] },
    ],
  };
}

/** Coarsest to finest, of the grits that are usually to be had; common practice, no source. */
const GRITS = [40, 60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 400];

/** The grits one after the other, each finer than the one before, and the way they go. */
export function sandingFigure(stage: Stage, step: BuiltStep): Figure | string {
  const [panel] = panelsOf(stage, step);
  if (panel === undefined) return NO_PANEL;
  const { source } = stage;
  const [first, last] = [numberOf(source, 'grit_first'), numberOf(source, 'grit_last')];
  if (last === undefined) {
    return 'its figure shows the grits one after the other and needs a cell named grit_last with a number. Name it, or write another word under figure.';
  }
  const from = Math.min(first ?? last, last);
  const told = (wordsOf(source, 'grit_steps')?.match(/\d+/g) ?? []).map(Number);
  const grits =
    told.length > 0
      ? told
      : [from, ...GRITS.filter((one) => one > from && one < last), ...(last > from ? [last] : [])];
  const [wide, high] = [ROOM - 20, 62];
  const band = wide / grits.length;
  let lines = '';
  for (const [i, grit] of grits.entries()) {
    const every = Math.max(2.2, 13 - Math.log2(grit / 40) * 3.4);
    for (let y = 6 + every / 2; y < 6 + high - 1; y += every) {
      lines += line([i * band + 3, y], [(i + 1) * band - 3, y]);
    }
  }
  const edges = grits.slice(1).map((_, i) => line([(i + 1) * band, 6], [(i + 1) * band, 6 + high]));
  return plated(
    stage,
    step,
    [
      {
        wide,
        high: high + 12,
        body: [
          wood(panel.material, box(0, 6, wide, high), stage.options.print === true, 5),
          stroke('kb-quiet', lines),
          stroke('kb-new', edges.join('')),
        ],
        names: grits.map((grit, i) => ({
          words: String(grit),
          spots: [[(i + 0.5) * band, 8]],
        })),
      },
    ],
    {
      says: `Sand with ${grits.join(', ')} grit, one after the other, along the grain at the end.`,
      caption:
        grits.length === 1
          ? 'Along the grain.'
          : 'Each grit on all of the wood; with the last one along the grain.',
      drawn: [measureOf(stage, step, 'grit_first'), measureOf(stage, step, 'grit_last')],
    },
  );
}

/** The outline that is sawn out of a panel, with what it is drawn by. */
export function outlineFigure(stage: Stage, step: BuiltStep): Figure | string {
  const [panel] = panelsOf(stage, step);
  if (panel === undefined) return NO_PANEL;
  const { source } = stage;
  const shape = shapeOf(stage, panel);
  const { length, width, material } = panel;
  const radius = lengthOf(source, 'corner_radius') ?? 0;
  if (shape === 'rounded' && !(radius > 0)) {
    return 'its figure shows the outline of a panel and needs a cell named corner_radius with a number over 0. Name it, or write another word under figure.';
  }
  const scale = scaleOf(panel);
  const [wide, high, pad] = [length * scale, width * scale, 12];
  const [cx, cy] = [pad + wide / 2, pad + high / 2];
  const r = Math.min(radius * scale, wide / 2, high / 2);
  const curve =
    shape === 'rounded'
      ? rounded(pad, pad, wide, high, r)
      : `M${n(pad)} ${n(cy)}A${n(wide / 2)} ${n(high / 2)} 0 1 1 ${n(pad + wide)} ${n(cy)}A${n(wide / 2)} ${n(high / 2)} 0 1 1 ${n(pad)} ${n(cy)}Z`;
  const by = drawnBy(stage, step, shape, { cx, cy, a: wide / 2, b: high / 2, r, scale });
  const names = [
    ...by.names,
    {
      words: `${shape === 'round' ? 'Across' : 'Long'} ${said(stage, length)}`,
      spots: [[cx + wide * 0.3, pad + high + 8]],
    },
    ...(shape === 'round'
      ? []
      : [{ words: `Wide ${said(stage, width)}`, spots: [[pad + wide + 9, cy + high * 0.2]] }]),
  ];
  return plated(
    stage,
    step,
    [
      {
        wide: wide + 2 * pad + 8,
        high: high + 2 * pad + 4,
        body: [
          stroke('kb-hidden', box(pad, pad, wide, high)),
          wood(material, curve, stage.options.print === true, 5),
          stroke(
            'kb-center',
            `${line([pad - 8, cy], [pad + wide + 6, cy])}${line([cx, pad - 8], [cx, pad + high + 6])}`,
          ),
          across(pad, pad + wide, pad + high + 8, -6),
          shape === 'round' ? '' : upright(pad, pad + high, pad + wide + 9, -6),
          ...by.body,
        ],
        names: names.map(({ words, spots }) => ({ words, spots: spots as readonly Spot[] })),
      },
    ],
    {
      says: `${panel.name} from above: ${by.says}`,
      caption: by.says,
      drawn: [
        measureAs(stage, step, length),
        measureAs(stage, step, width, [measureAs(stage, step, length)]),
        measureOf(stage, step, 'corner_radius'),
        measureOf(stage, step, 'oval_pins'),
        measureOf(stage, step, 'trammel'),
      ],
    },
  );
}

type Shape = 'round' | 'oval' | 'rounded';

function shapeOf({ source }: Stage, { form }: Part): Shape {
  const kind = form?.outline?.kind;
  if (kind === 'round' || kind === 'oval') return kind;
  const value = source.named('top_shape')?.value;
  const word = value?.kind === 'text' ? value.text.trim().toLowerCase() : '';
  return word === 'round' || word === 'oval' ? word : 'rounded';
}

const rounded = (x: number, y: number, wide: number, high: number, r: number): string => {
  const arc = (toX: number, toY: number): string => `A${n(r)} ${n(r)} 0 0 1 ${n(toX)} ${n(toY)}`;
  return `M${n(x + r)} ${n(y)}H${n(x + wide - r)}${arc(x + wide, y + r)}V${n(y + high - r)}${arc(x + wide - r, y + high)}H${n(x + r)}${arc(x, y + high - r)}V${n(y + r)}${arc(x + r, y)}Z`;
};

interface Place {
  readonly cx: number;
  readonly cy: number;
  readonly a: number;
  readonly b: number;
  readonly r: number;
  readonly scale: number;
}

/** What the outline is drawn with: a trammel, a strip with two marks, two pins and string, or a compass. */
function drawnBy(
  stage: Stage,
  step: BuiltStep,
  shape: Shape,
  { cx, cy, a, b, r, scale }: Place,
): {
  readonly body: readonly string[];
  readonly names: readonly { readonly words: string; readonly spots: readonly Spot[] }[];
  readonly says: string;
} {
  const dot = ([x, y]: Spot): string =>
    `<circle class="kb-iron" fill="currentColor" cx="${n(x)}" cy="${n(y)}" r="2.6"/>`;
  if (shape === 'rounded') {
    const at: Spot = [cx - a + r, cy - b + r];
    const to: Spot = [at[0] - r * Math.SQRT1_2, at[1] - r * Math.SQRT1_2];
    return {
      body: [dot(at), stroke('kb-new', line(at, to))],
      names: nameOf(stage, 'Radius', 'corner_radius', [(at[0] + to[0]) / 2, (at[1] + to[1]) / 2]),
      says: 'The center of each corner is as far in from the end as from the side.',
    };
  }
  if (shape === 'round') {
    const to: Spot = [cx - a * Math.SQRT1_2, cy - b * Math.SQRT1_2];
    return {
      body: [dot([cx, cy]), stroke('kb-new', line([cx, cy], to))],
      names: [
        {
          words: `Trammel ${said(stage, a / scale)}`,
          spots: [[(cx + to[0]) / 2, (cy + to[1]) / 2]],
        },
      ],
      says: 'One point of the trammel stands where the center lines cross.',
    };
  }
  const pins = measureOf(stage, step, 'oval_pins');
  const apart = lengthOf(stage.source, 'oval_pins') ?? 0;
  const turn = Math.PI * 0.3;
  const pencil: Spot = [cx - a * Math.cos(turn), cy - b * Math.sin(turn)];
  if (pins !== undefined && apart > 0) {
    const [left, right]: readonly [Spot, Spot] = [
      [cx - (apart / 2) * scale, cy],
      [cx + (apart / 2) * scale, cy],
    ];
    return {
      body: [
        dot(left),
        dot(right),
        stroke('kb-new', `${line(left, pencil)}${line(pencil, right)}${line(left, right)}`),
      ],
      names: [
        { words: `Pins ${pins.words} apart`, spots: [right] },
        { words: 'Pencil in the loop', spots: [pencil] },
      ],
      says: 'Two pins on the long center line, a loop of string around both, and the pencil held taut in it.',
    };
  }
  const onShort: Spot = [cx, cy + (a - b) * Math.sin(turn)];
  const onLong: Spot = [cx - (a - b) * Math.cos(turn), cy];
  return {
    body: [stroke('kb-new', line(pencil, onShort)), dot(onShort), dot(onLong)],
    names: [
      { words: 'Pencil', spots: [pencil] },
      { words: `Mark at ${said(stage, a / scale)}`, spots: [onShort] },
      { words: `Mark at ${said(stage, b / scale)}`, spots: [onLong] },
    ],
    says: 'The marks on the strip are measured from the pencil; one stays on each center line.',
  };
}

/** The edge of a panel, cut across, with what is routed off it. */
export function edgeFigure(stage: Stage, step: BuiltStep): Figure | string {
  const [panel] = panelsOf(stage, step);
  if (panel === undefined) return NO_PANEL;
  const { source } = stage;
  const name = lengthOf(source, 'edge_size') === undefined ? 'edge_radius' : 'edge_size';
  const own = lengthOf(source, name) ?? 0;
  if (!(own > 0)) {
    return 'its figure shows the edge of a panel and needs a cell named edge_size or edge_radius with a number over 0. Name it, or write another word under figure.';
  }
  const word = (cell: string, otherwise: string): string => {
    const value = source.named(cell)?.value;
    return value?.kind === 'text' ? value.text.trim().toLowerCase() : otherwise;
  };
  const profile = word('edge_profile', 'round-over');
  const where = word('edge_where', 'both edges');
  const [upper, lower] = [!/^lower|^under/.test(where), !/^upper/.test(where)];
  const { thickness, material } = panel;
  const most = upper && lower ? thickness / 2 : thickness;
  const size_ = Math.min(own, most);
  const scale = 74 / thickness;
  const [wide, high, s] = [170, 74, size_ * scale];
  const right = wide;
  const corner = (top: boolean): string => {
    const y = top ? 0 : high;
    const away = top ? s : -s;
    const from = `${n(right - s)} ${n(y)}`;
    const to = `${n(right)} ${n(y + away)}`;
    const [first, second] = top ? [from, to] : [to, from];
    if (profile === 'chamfer') return `L${first}L${second}`;
    return `L${first}A${n(s)} ${n(s)} 0 0 ${profile === 'cove' ? 0 : 1} ${second}`;
  };
  const d = `M0 0${upper ? corner(true) : `L${right} 0`}${lower ? corner(false) : `L${right} ${high}`}L0 ${high}Z`;
  const ghosts = `${upper ? `M${n(right - s)} 0H${right}V${n(s)}` : ''}${lower ? `M${n(right - s)} ${high}H${right}V${n(high - s)}` : ''}`;
  const straight: readonly [number, number] = [upper ? s : 0, lower ? high - s : high];
  const spot: Spot = upper ? [right - s * 0.3, s * 0.3] : [right - s * 0.3, high - s * 0.3];
  const words = wordsOf(source, name) ?? '';
  const kind = profile === 'chamfer' ? 'Chamfer' : profile === 'cove' ? 'Cove, radius' : 'Radius';
  const left = (straight[1] - straight[0]) / scale;
  return plated(
    stage,
    step,
    [
      {
        wide: wide + 22,
        high,
        body: [
          wood(material, d, stage.options.print === true, 5),
          stroke('kb-hidden', ghosts),
          straight[1] - straight[0] > 1
            ? size([right + 12, straight[0]], [right + 12, straight[1]])
            : '',
        ],
        names: [
          { words: `${kind} ${words}`, spots: [spot] },
          ...(straight[1] - straight[0] > 1
            ? [
                {
                  words: `Stays straight ${said(stage, left)}`,
                  spots: [[right + 12, (straight[0] + straight[1]) / 2] as Spot],
                },
              ]
            : []),
        ],
      },
    ],
    {
      says: `The edge of ${panel.name}, cut across: ${kind.toLowerCase()} ${words}.`,
      caption: `The edge of ${panel.name}, cut across. The dashed line is what the bit takes away.`,
      drawn: [
        measureOf(stage, step, name),
        straight[1] - straight[0] > 1 ? measureOf(stage, step, 'edge_left') : undefined,
      ],
    },
  );
}
