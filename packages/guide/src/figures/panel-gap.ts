import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs, wordsOf } from './named-cells.ts';
import { grooveGapFigure, panelLost } from './panel-groove.ts';
import { Picture } from './picture.ts';
import { across, measureOf, nameOf, type Plate, plated, ROOM } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, ring, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

const NAMES = ['panel_opening', 'cover_depth', 'panel_cut'];
const SEASONS = [
  ['gap_dry', 'Dry season'],
  ['gap_now', 'Day it is fitted'],
  ['gap_least', 'Humid season'],
] as const;

/** A panel in the grooves of its frame, cut across its width; and its edge in the groove through the seasons. */
export function panelGapFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const lost = missing(source, NAMES);
  // A frame of a door names its stiles and grooves.
  if (lost.length > 0 && panelLost(stage) === undefined) return grooveGapFigure(stage, step);
  if (lost.length > 0) return needs('a panel in its grooves', lost);
  const panel = partOf(stage, step, /panel|top|back/i);
  const value = source.named('panel_held')?.value;
  const oneEdge = value?.kind === 'text' && !/middle|center/i.test(value.text);
  const gaps = SEASONS.flatMap(([name, says]) => {
    const mm = lengthOf(source, name);
    const words = wordsOf(source, name);
    return mm === undefined || words === undefined ? [] : [{ name, says, mm, words }];
  });
  const asks = measureOf(stage, step, 'panel_cut') !== undefined;
  const isBoth = asks === (measureOf(stage, step, 'gap_dry') !== undefined);
  const whole = wholePanel(stage, panel?.material, oneEdge);
  const edges = edgeInGroove(stage, panel?.material, gaps);
  const plates = [...(asks || isBoth ? [whole] : []), ...(!asks || isBoth ? [edges] : [])];
  return plated(stage, step, plates, {
    says: `A panel in the grooves of its frame. ${gaps.map(({ says, words }) => `${says}: ${words} left at a moving edge.`).join(' ')}`,
    caption: plates.includes(whole)
      ? `Cut across the width.${oneEdge ? ' The left edge is held.' : ''} The gap is drawn larger than it is.`
      : 'A moving edge in its groove, to one scale.',
    drawn: [
      ...(asks || isBoth ? ['panel_opening', 'cover_depth', 'panel_cut', 'gap_now'] : []),
      ...(!asks || isBoth ? ['gap_now', 'gap_dry', 'gap_least'] : []),
    ].map((name) => measureOf(stage, step, name)),
  });
}

function wholePanel(stage: Stage, material: string | undefined, oneEdge: boolean): Plate {
  const print = stage.options.print === true;
  const [wide, high, stile, groove, gap] = [ROOM - 10, 34, 46, 24, 7];
  const y = 14;
  const thin = high * 0.4;
  const [above, below] = [y + (high - thin) / 2, y + (high + thin) / 2];
  const frame = (left: boolean): string => {
    const at = (x: number): number => (left ? x : wide - x);
    return ring([
      [at(0), y],
      [at(stile), y],
      [at(stile), above],
      [at(stile - groove), above],
      [at(stile - groove), below],
      [at(stile), below],
      [at(stile), y + high],
      [at(0), y + high],
    ]);
  };
  const [from, to] = [stile - groove + (oneEdge ? 0 : gap), wide - stile + groove - gap];
  return {
    wide,
    high: y + high + 16,
    body: [
      wood(undefined, frame(true), print, 3),
      wood(undefined, frame(false), print, 3),
      wood(material, box(from, above + 1, to - from, thin - 2), print, 5),
      across(stile, wide - stile, 6, y - 6),
      across(from, to, y + high + 10, -(y + high + 10 - below)),
      across(wide - stile, wide - stile + groove, y + 4, 0),
    ],
    names: [
      ...nameOf(stage, 'Between the frame', 'panel_opening', [wide * 0.4, 6]),
      ...nameOf(stage, 'Panel', 'panel_cut', [wide * 0.45, y + high + 10]),
      ...nameOf(stage, 'Groove', 'cover_depth', [wide - stile + groove / 2, y + 4]),
      ...nameOf(stage, 'Gap', 'gap_now', [to + gap / 2, (above + below) / 2]),
    ],
  };
}

/** The right edge of the panel in its groove, once for each season. */
function edgeInGroove(
  stage: Stage,
  material: string | undefined,
  gaps: readonly { readonly says: string; readonly mm: number; readonly words: string }[],
): Plate {
  const print = stage.options.print === true;
  const deep = lengthOf(stage.source, 'cover_depth') ?? 0;
  const column = ROOM / Math.max(gaps.length, 1);
  const [wide, high, groove] = [column - 12, 46, 44];
  const thin = high * 0.4;
  const words = new Picture(stage.speak);
  const top = 20;
  const scale = groove / Math.max(deep, ...gaps.map(({ mm }) => mm), 1e-6);
  const body = gaps.flatMap(({ says, mm, words: own }, i) => {
    const left = i * column + 6;
    const [face, bottom] = [left + wide - groove - 14, left + wide - 14];
    const [above, below] = [top + (high - thin) / 2, top + (high + thin) / 2];
    words.text(left + wide / 2, 11, says, 'middle');
    words.text(left + wide / 2, top + high + 26, `Gap ${own}`, 'middle');
    const edge = bottom - Math.max(0, mm) * scale;
    return [
      wood(
        undefined,
        ring([
          [face, top],
          [left + wide, top],
          [left + wide, top + high],
          [face, top + high],
          [face, below],
          [bottom, below],
          [bottom, above],
          [face, above],
        ]),
        print,
        3,
      ),
      wood(material, box(left, above + 1, edge - left, thin - 2), print, 5),
      mm * scale < 0.5 ? '' : across(edge, bottom, top + high + 8, -(top + high + 8 - below)),
    ];
  });
  return { wide: ROOM, high: top + high + 30, body: [...body, ...words.parts], names: [] };
}
