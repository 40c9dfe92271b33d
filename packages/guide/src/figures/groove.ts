import type { Part } from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs, numberOf, wordsOf } from './named-cells.ts';
import { drawNamed, type Named } from './names.ts';
import { measureLines } from './part-lines.ts';
import { FIGURE, Picture } from './picture.ts';
import { measureOf } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, ring, size, stroke, wood } from './strokes.ts';
import { partOf } from './which-part.ts';

const NAMES = ['groove_edge', 'groove_width', 'groove_depth'];

/**
 * A groove cut across: fence, blade and the part over them; of one that is routed, the part alone.
 */
export function grooveFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const lost = missing(source, NAMES);
  if (lost.length > 0) return needs('the groove at the saw', lost);
  const [edge = 0, width = 0, depth = 0] = NAMES.map((name) => lengthOf(source, name));
  const part = partOf(stage, step, /apron|rail/i);
  if (part === undefined) {
    return 'its figure shows the groove at the saw and knows no part to draw. Write groove: and the part, such as groove: Long apron.';
  }
  const { thickness, width: across } = sectionOf(part);
  if (edge + width > across || depth >= thickness) {
    return `the groove does not fit in ${part.name}, so its figure is left out. Look at the sizes of the groove and of the part.`;
  }
  const isRouted = step.figure.cut === 'routed';
  const fence = Math.min(across * 0.35, thickness * 0.9);
  const past = across * 0.2;
  const below = Math.max(depth, thickness * 0.5);
  const tall = Math.max(thickness * 1.35, depth * 1.6);
  const wide = fence + across + past;
  const scale = Math.min((FIGURE.wide - 2 * FIGURE.edge) / wide, 140 / (tall + below));
  const at = (x: number, up: number): readonly [number, number] => [
    (fence + x) * scale,
    (tall - up) * scale,
  ];
  const u = (mm: number): number => mm * scale;
  const kerf = Math.min(lengthOf(source, 'kerf') ?? width, width);
  const [x0, table] = at(0, 0);
  const bladeX = u(fence + edge);
  const body = [
    wood(
      part.material,
      ring([
        at(0, 0),
        at(edge, 0),
        at(edge, depth),
        at(edge + width, depth),
        at(edge + width, 0),
        at(across, 0),
        at(across, thickness),
        at(0, thickness),
      ]),
      stage.options.print === true,
    ),
    ...(isRouted
      ? []
      : [
          stroke('kb-quiet', box(0, 0, x0, table)),
          stroke('kb-quiet', hatch(0, 0, x0, table)),
          stroke(
            'kb-new',
            `${line([0, table], [bladeX - 2, table])}${line([bladeX + u(kerf) + 2, table], [u(wide), table])}`,
          ),
          iron(box(bladeX, table - u(depth), u(kerf), u(depth + below))),
        ]),
    size([x0, table + 9], [bladeX, table + 9]),
    size(
      [bladeX + u(width) / 2 + u(kerf) * 0.5, table],
      [bladeX + u(width) / 2 + u(kerf) * 0.5, table - u(depth)],
    ),
  ].join('');
  const passes = numberOf(source, 'groove_passes') ?? 1;
  const names: Named[] = [
    ...(isRouted ? [] : [{ words: 'Fence', spots: [[x0 / 2, u(tall) * 0.3]] } as const]),
    {
      words: isRouted ? `Upper edge of ${part.name}` : `${part.name}, inside face down`,
      spots: [isRouted ? at(0, thickness * 0.6) : at(across * 0.7, thickness * 0.7)],
    },
    {
      words: `${isRouted ? 'Edge to groove' : 'Fence to blade'} ${wordsOf(source, 'groove_edge') ?? ''}`,
      spots: [[(x0 + bladeX) / 2, table + 9]],
    },
    {
      words: `${isRouted ? 'Deep' : 'Blade up'} ${wordsOf(source, 'groove_depth') ?? ''}`,
      spots: [
        isRouted ? at(edge + width / 2, depth / 2) : [bladeX + u(kerf) / 2, table + u(below) * 0.6],
      ],
    },
  ];
  const drawn = NAMES.map((name) => measureOf(stage, step, name));
  const lines = [
    `Groove: ${NAMES.slice(1)
      .map((name) => wordsOf(source, name))
      .join(' wide, ')} deep, ${wordsOf(source, 'groove_edge')} from the upper edge`,
    ...(passes > 1 && kerf < width && !isRouted
      ? [`${passes} passes side by side; move the fence away from the blade`]
      : []),
    ...measureLines({ measures: step.measures.filter((one) => !drawn.includes(one)) }),
  ];
  const picture = new Picture(stage.speak);
  drawNamed(picture, names, { wide: u(wide), high: u(tall + below), lines: [] }, body);
  picture.beneath(lines);
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: isRouted
      ? `${part.name} cut through: its upper edge at the left, its inside face below. ${lines.join('. ')}.`
      : `The saw from its outfeed end, cut through ${part.name}: its upper edge runs along the fence, its inside face lies on the table. ${lines.join('. ')}.`,
    tells: drawn.flatMap((one) => (one === undefined ? [] : [one.label])),
    caption: isRouted
      ? 'Cut across, with the inside face below.'
      : 'The upper edge runs along the fence, the inside face lies on the table.',
  };
}

/** Across its length: the smaller size is its thickness. */
const sectionOf = ({
  thickness,
  width,
}: Part): { readonly thickness: number; readonly width: number } => ({
  thickness: Math.min(thickness, width),
  width: Math.max(thickness, width),
});

/** Slanted lines within a rectangle, as of a thing cut through. */
function hatch(x: number, y: number, wide: number, high: number): string {
  let d = '';
  for (let c = 8; c < wide + high; c += 8) {
    const from: readonly [number, number] = c <= high ? [x, y + c] : [x + c - high, y + high];
    const to: readonly [number, number] = c <= wide ? [x + c, y] : [x + wide, y + c - wide];
    d += line(from, to);
  }
  return d;
}
