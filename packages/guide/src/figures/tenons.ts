import type { BuiltStep } from '../steps/built.ts';
import type { Measure } from '../steps/read-steps.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs, numberOf, wordsOf } from './named-cells.ts';
import type { Named } from './names.ts';
import { n, type Spot } from './picture.ts';
import { across, measureOf, plated, ROOM, upright } from './plate.ts';
import type { Stage } from './stage.ts';
import { line, ring, stroke, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

const NAMES = ['tenon_count', 'tenon_wide', 'peg_apart', 'end_tenon', 'tongue_stub'];
const SLOTS = ['slot_first', 'slot_second', 'slot_third', 'slot_fourth'];
const MOST = 41;

/** The tongued end of a panel from above: its tenons, the stub between them, and a hole or a slot for each peg. */
export function tenonsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const panel = partOf(stage, step, /panel|top/i);
  const lost = missing(source, NAMES);
  if (panel === undefined || lost.length > 0) {
    return needs('the tenons of a panel', lost.length > 0 ? lost : NAMES);
  }
  const count = numberOf(source, 'tenon_count') ?? 0;
  if (!Number.isInteger(count) || count > MOST)
    return needs('the tenons of a panel', ['tenon_count']);
  const [tenon = 0, apart = 0, long = 0, stub = 0] = NAMES.slice(1).map((name) =>
    lengthOf(source, name),
  );
  const bored = measureOf(stage, step, 'peg_line') !== undefined;
  const shoulder = lengthOf(source, 'end_shoulder') ?? 0;
  const scale = (ROOM - 34) / panel.width;
  const u = (mm: number): number => mm * scale;
  const wide = u(panel.width);
  // Along the panel it is drawn somewhat larger where tenons would be too short to tell.
  const tall = Math.max(1, 30 / Math.max(u(long), 1));
  const v = (mm: number): number => mm * scale * tall;
  const [tip, base] = [12, 12 + v(long)];
  const body = base + 34;
  const middles = Array.from({ length: count }, (_, i) =>
    u(panel.width / 2 + (i - (count - 1) / 2) * apart),
  );
  const corners: Spot[] = [
    [0, body],
    [0, base],
    [u(shoulder), base],
    [u(shoulder), base - v(stub)],
  ];
  for (const x of middles) {
    corners.push(
      [x - u(tenon) / 2, base - v(stub)],
      [x - u(tenon) / 2, tip],
      [x + u(tenon) / 2, tip],
      [x + u(tenon) / 2, base - v(stub)],
    );
  }
  corners.push(
    [wide - u(shoulder), base - v(stub)],
    [wide - u(shoulder), base],
    [wide, base],
    [wide, body],
  );
  const from = lengthOf(source, 'peg_line') ?? long / 2;
  const y = base - v(from);
  const peg = Math.max(u(lengthOf(source, 'peg_diameter') ?? 9.5), 3);
  const half = (count - 1) / 2;
  const holes = !bored
    ? []
    : middles.map((x, i) => {
        const off = Math.abs(i - half);
        const own =
          off < 0.75
            ? 0
            : (lengthOf(source, SLOTS[Math.round(off) - 1] ?? '') ??
              lengthOf(source, 'slot_outer') ??
              0);
        const slot = Math.max(u(own), peg);
        const r = peg / 2;
        return `<path class="kb-hole" fill="none" stroke="currentColor" stroke-width="1.2" d="M${n(x - slot / 2 + r)} ${n(y - r)}H${n(x + slot / 2 - r)}A${n(r)} ${n(r)} 0 0 1 ${n(x + slot / 2 - r)} ${n(y + r)}H${n(x - slot / 2 + r)}A${n(r)} ${n(r)} 0 0 1 ${n(x - slot / 2 + r)} ${n(y - r)}Z"/>`;
      });
  const first = middles[0] ?? 0;
  const second = middles[1] ?? wide - first;
  const middle = middles[Math.floor(half)] ?? first;
  const marks: string[] = [];
  const names: Named[] = [];
  const drawn: (Measure | undefined)[] = [];
  const put = (words: string, name: string, spot: Spot, mark: string): void => {
    const own = wordsOf(source, name);
    if (own === undefined || measureOf(stage, step, name) === undefined) return;
    marks.push(mark);
    names.push({ words: `${words} ${own}`, spots: [spot] });
    drawn.push(measureOf(stage, step, name));
  };
  const below = base + 14;
  put('Tenon', 'tenon_wide', [first, 5], across(first - u(tenon) / 2, first + u(tenon) / 2, 5, 6));
  if (count > 1) {
    put(
      'Middle to middle',
      'peg_apart',
      [(first + second) / 2, below],
      across(first, second, below, -(below - base)),
    );
  }
  put('Stub', 'tongue_stub', [wide - u(shoulder) - 4, base - v(stub) / 2], '');
  put('From the edge', 'peg_in', [first / 2, below], across(0, first, below, -(below - y)));
  put('From the shoulder', 'peg_line', [wide + 9, (y + base) / 2], upright(y, base, wide + 9, -8));
  put('Outermost slot', 'slot_outer', [middles.at(-1) ?? wide, y], '');
  if (bored) {
    names.push({ words: 'Round in the middle', spots: [[middle, y]] });
    drawn.push(measureOf(stage, step, 'peg_diameter'));
  }
  if (measureOf(stage, step, 'tenon_count') !== undefined)
    drawn.push(measureOf(stage, step, 'tenon_count'));
  return plated(
    stage,
    step,
    [
      {
        wide: wide + 16,
        high: body + 4,
        body: [
          wood(panel.material, ring(corners), stage.options.print === true, 5),
          stroke('kb-quiet', line([u(shoulder), base], [wide - u(shoulder), base])),
          bored ? stroke('kb-center', line([0, y], [wide, y])) : '',
          ...holes,
          ...marks,
        ],
        names,
      },
    ],
    {
      says: `The end of ${panel.name} from above: ${count} ${count === 1 ? 'tenon' : 'tenons'} with a stub between${bored ? ', a round hole in the middle one and slots in the others' : ''}.`,
      caption: `The end of ${panel.name} from above, ${count} ${count === 1 ? 'tenon' : 'tenons'}.${bored ? ` Holes ${wordsOf(source, 'peg_diameter') ?? ''} wide; only those in the tenons are opened to slots.` : ' Along the panel it is drawn larger than it is.'}`,
      drawn,
    },
  );
}
