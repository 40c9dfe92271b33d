import type { Piece } from '@kerfbook/drawing';
import { type BuiltStep, partsByName, partsNamed } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs } from './named-cells.ts';
import { partCounted } from './part-lines.ts';
import type { Spot } from './picture.ts';
import { measureOf, nameOf, type Plate, plated, ROOM, said } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, line, stroke, wood } from './strokes.ts';

const TALL = 150;

/** Which edges are banded, from the front, and a banded edge cut across; `banding: Side, Bottom` names the parts. */
export function bandingFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const lost = missing(source, ['band_thickness', 'sheet_thickness']);
  if (lost.length > 0) return needs('edges that are banded', lost);
  const names = (step.figure.of ?? '').split(',').map((one) => one.trim());
  const { parts } = partsNamed(names, partsByName(stage.plan.parts));
  const banded = stage.scene.pieces.filter(({ part }) => parts.includes(part));
  if (banded.length === 0) {
    return 'its figure shows which edges are banded and knows no parts. Write banding: and the parts, such as banding: Side, Bottom.';
  }
  const lengths = parts.map((part) => {
    const own = banded.filter((one) => one.part === part).map(({ from }) => from.y);
    // Of two behind each other the front one alone is banded.
    const count = own.filter((y) => y < Math.min(...own) + part.width / 2).length;
    return `${partCounted({ name: part.name, count })}: ${said(stage, part.length)}`;
  });
  return plated(stage, step, [fromFront(stage, banded), acrossEdge(stage)], {
    says: `From the front: the edges that are banded. ${lengths.join(', ')}.`,
    caption:
      'From the front: the edges in the tone of the wood are banded. Below: one edge cut across, before it is trimmed.',
    lines: lengths,
    drawn: ['band_thickness'].map((name) => measureOf(stage, step, name)),
  });
}

function fromFront(stage: Stage, banded: readonly Piece[]): Plate {
  const all = stage.scene.pieces;
  const [left, right] = [
    Math.min(...all.map(({ from }) => from.x)),
    Math.max(...all.map(({ to }) => to.x)),
  ];
  const [low, top] = [
    Math.min(...all.map(({ from }) => from.z)),
    Math.max(...all.map(({ to }) => to.z)),
  ];
  const scale = Math.min((ROOM - 20) / (right - left), TALL / (top - low));
  const put = ({ from, to }: Piece): string =>
    box(
      (from.x - left) * scale,
      (top - to.z) * scale,
      (to.x - from.x) * scale,
      (to.z - from.z) * scale,
    );
  const print = stage.options.print === true;
  const seen = new Set<string>();
  return {
    wide: (right - left) * scale,
    high: (top - low) * scale,
    body: [
      stroke(
        'kb-quiet',
        all
          .filter((one) => !banded.includes(one))
          .map(put)
          .join(''),
      ),
      ...banded.map((piece) => wood(piece.part.material, put(piece), print, 4)),
    ],
    names: banded.flatMap((piece) => {
      const { part, from, to } = piece;
      if (seen.has(part.name)) return [];
      seen.add(part.name);
      const spots = banded
        .filter((one) => one.part === part)
        .map(
          (one): Spot => [
            ((one.from.x + one.to.x) / 2 - left) * scale,
            (top - (one.from.z + one.to.z) / 2) * scale,
          ],
        );
      return from.x > to.x ? [] : [{ words: part.name, spots }];
    }),
  };
}

/** The front of a sheet with its banding, which stands over both faces until it is trimmed. */
function acrossEdge(stage: Stage): Plate {
  const thick = lengthOf(stage.source, 'sheet_thickness') ?? 0;
  const band = lengthOf(stage.source, 'band_thickness') ?? 0;
  const scale = 46 / thick;
  const [h, b, over] = [thick * scale, Math.max(2.5, band * scale), 6];
  const w = 120;
  const material = stage.plan.parts.parts[0]?.material;
  let plies = '';
  for (let i = 1; i < 7; i += 1) plies += line([0, over + (i * h) / 7], [w, over + (i * h) / 7]);
  return {
    wide: w + b,
    high: h + 2 * over,
    body: [
      wood(material, box(0, over, w, h), stage.options.print === true, 5),
      stroke('kb-quiet', plies),
      wood(material, box(w, 0, b, h + 2 * over), stage.options.print === true, 3),
    ],
    names: [
      ...nameOf(stage, 'Sheet', 'sheet_thickness', [w * 0.2, over + h * 0.5]),
      ...nameOf(stage, 'Banding', 'band_thickness', [w + b / 2, over + h * 0.4]),
      { words: 'Trim flush with the face', spots: [[w + b / 2, h + 1.5 * over]] },
    ],
  };
}
