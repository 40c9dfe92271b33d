import { inputOf, type OwnTable, type Piece, wordOf } from './own-table.ts';
import { ownWood, weighs } from './own-wood.ts';
import { inches, type Refusal, refusal } from './refusal.ts';
import type { Stated } from './stated.ts';

/** A child of five who climbs, lbf: median of the CDC's growth charts, value from memory. */
const CHILD = 40;
/** Who leans on a table at the least, lbf. Common practice, no source. */
const LEANS = 100;
/** A load of a person is as wide at the least, in. Common practice, no source. */
const LEANS_WIDE = 6;
/** Densities are averages: as much may a table be lighter before it is refused. */
const AVERAGE = 0.95;
/** A bend that is seen and felt: span over this. Common practice, no source. */
const SEEN = 240;
const SEEN_IN_TOP = 200;
/** Of what breaks clear wood, what is borne for long: a quarter. Common practice, no source. */
const SAFE = 1 / 4;

/** Tipping over an edge, aprons and a top that bend or break. Estimates, no test of a standard. */
export function loadRefusals(stated: Stated, table: OwnTable): readonly Refusal[] {
  return [...tipping(stated, table), ...apronBends(stated, table), ...topBends(stated, table)];
}

/** lb of all pieces. */
export function weightOf(stated: Stated, table: OwnTable, name?: string): number {
  const moisture = inputOf(stated, 'moisture_build');
  const volume = table.pieces
    .filter((piece) => name === undefined || piece.name === name)
    .reduce((sum, piece) => sum + woodIn(piece, table), 0);
  return weighs(wordOf(stated, 'species'), volume, moisture);
}

/** Cubic inches of a piece: what is not sawn off around the top, or along the legs. */
function woodIn({ name, size: [x, y, z] }: Piece, { outline, leg, foot, apron }: OwnTable): number {
  if (name === 'top' && outline.kind === 'oval') return Math.PI * (x / 2) * (y / 2) * z;
  // Each corner loses a square and keeps a quarter of a disk.
  if (name === 'top' && outline.kind === 'corners')
    return (x * y - 4 * outline.radius ** 2 * (1 - Math.PI / 4)) * z;
  if (name !== 'leg' || foot.size === leg) return x * y * z;
  const square = apron.width + foot.below;
  const middle = (leg + foot.size) / 2;
  // Simpson's rule has no error here: the section is a square of a side that runs straight.
  return leg ** 2 * square + ((z - square) / 6) * (leg ** 2 + 4 * middle ** 2 + foot.size ** 2);
}

/** The table stands on the rectangle of its feet, its weight over the middle: each edge by itself. */
function tipping(stated: Stated, table: OwnTable): readonly Refusal[] {
  const load = Math.max(inputOf(stated, 'lean_load'), CHILD);
  const weight = weightOf(stated, table);
  const edges = [
    ['end', table.overEnd + table.foot.in, table.length],
    ['side', table.overSide + table.foot.in, table.width],
  ] as const;
  return edges.flatMap(([edge, over, size]) => {
    const holds = weight * (size / 2 - over);
    if (load * over * AVERAGE <= holds) return [];
    const tips = Math.round(holds / over);
    return [
      refusal(
        'tips',
        `${tips} lbf on the ${edge} tips it; ${Math.round(load)} lbf may lean there.`,
      ),
    ];
  });
}

function apronBends(stated: Stated, { clear, apron }: OwnTable): readonly Refusal[] {
  const load = Math.max(inputOf(stated, 'lean_load'), LEANS);
  const { stiffness, strength } = ownWood(wordOf(stated, 'species'));
  const span = clear.along;
  const bends = (load * span ** 3) / (48 * stiffness * ((apron.thickness * apron.width ** 3) / 12));
  const stress = ((load * span) / 4) * (6 / (apron.thickness * apron.width ** 2));
  return bent('long apron', { span, bends, most: span / SEEN, stress, strength });
}

/** Between its bearers and past them the top is a beam as wide as it spans, no wider than it is. */
function topBends(stated: Stated, table: OwnTable): readonly Refusal[] {
  const load = Math.max(inputOf(stated, 'lean_load'), LEANS);
  const { stiffness, strength } = ownWood(wordOf(stated, 'species'));
  const { clear, support, overEnd, width, thickness } = table;
  const inertia = (wide: number): number => (wide * thickness ** 3) / 12;
  const bay = clear.along / (support.count + 1);
  const bayWide = Math.min(width, Math.max(LEANS_WIDE, bay));
  const endWide = Math.min(width, Math.max(LEANS_WIDE, overEnd));
  return [
    ...bent('top between its bearers', {
      span: bay,
      bends: (load * bay ** 3) / (48 * stiffness * inertia(bayWide)),
      most: bay / SEEN_IN_TOP,
      stress: ((load * bay) / 4) * (6 / (bayWide * thickness ** 2)),
      strength,
    }),
    ...(overEnd === 0
      ? []
      : bent('overhanging end', {
          span: overEnd,
          bends: (load * overEnd ** 3) / (3 * stiffness * inertia(endWide)),
          most: (2 * overEnd) / SEEN_IN_TOP,
          stress: load * overEnd * (6 / (endWide * thickness ** 2)),
          strength,
        })),
  ];
}

interface Bent {
  readonly span: number;
  readonly bends: number;
  readonly most: number;
  readonly stress: number;
  readonly strength: number;
}

function bent(name: string, { span, bends, most, stress, strength }: Bent): readonly Refusal[] {
  const found: Refusal[] = [];
  if (bends > most) {
    found.push(
      refusal('bends', `The ${name} bends ${inches(bends)} over ${inches(span)}, seen by all.`),
    );
  }
  if (stress > strength * SAFE)
    found.push(refusal('breaks', `The ${name} may break: ${Math.round(stress)} psi.`));
  return found;
}
