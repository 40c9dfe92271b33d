import type { Stated } from './stated.ts';

/** A box of wood: from its near-left-bottom corner, along x, y and z; in. */
export interface Piece {
  readonly name: string;
  readonly from: Point;
  readonly size: Point;
}

type Point = readonly [number, number, number];

/** How the top is sawn: `radius` of its corners, 0 where they are square. */
export type Outline =
  | { readonly kind: 'corners'; readonly radius: number }
  | { readonly kind: 'oval' };

/** The table that a maker would build from the inputs alone; in. */
export interface OwnTable {
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
  readonly height: number;
  readonly leg: number;
  readonly overEnd: number;
  readonly overSide: number;
  readonly apron: { readonly width: number; readonly thickness: number; readonly setback: number };
  readonly tenon: number;
  /** As it is seen from above. */
  readonly outline: Outline;
  /** Side of the square at the foot, how far below the aprons it begins, and how far in from outside it stands. */
  readonly foot: { readonly size: number; readonly below: number; readonly in: number };
  /** Between the legs, along and across the table. */
  readonly clear: { readonly along: number; readonly across: number };
  readonly legLength: number;
  readonly support: {
    readonly count: number;
    readonly width: number;
    readonly thickness: number;
    readonly length: number;
  };
  readonly pieces: readonly Piece[];
}

/** @throws Error where the workbook states no number by that name */
export function inputOf({ inputs }: Pick<Stated, 'inputs'>, name: string): number {
  const value = inputs[name];
  if (typeof value !== 'number') throw new Error(`no input ${name}`);
  return value;
}

/** @throws Error where the workbook states no word by that name */
export function wordOf({ inputs }: Pick<Stated, 'inputs'>, name: string): string {
  const value = inputs[name];
  if (typeof value !== 'string') throw new Error(`no input ${name}`);
  return value;
}

/** Supports so that no way from one to the next, or to a leg, is wider than the gap. */
export function supportsFor(clear: number, gap: number): number {
  let count = 0;
  while (clear / (count + 1) > gap + 1e-9) count += 1;
  return count;
}

/** Lays the table out from its inputs: four legs, four aprons between them, supports, the top. */
export function ownTable(stated: Stated): OwnTable {
  const at = (name: string): number => inputOf(stated, name);
  const length = at('top_length');
  const width = at('top_width');
  const thickness = at('top_thickness');
  const leg = at('leg_size');
  const overEnd = at('overhang_end');
  const overSide = at('overhang_side');
  const apron = {
    width: at('apron_width'),
    thickness: at('apron_thickness'),
    setback: at('apron_setback'),
  };
  const clear = {
    along: length - 2 * (overEnd + leg),
    across: width - 2 * (overSide + leg),
  };
  const table = {
    length,
    width,
    thickness,
    height: at('table_height'),
    leg,
    overEnd,
    overSide,
    apron,
    tenon: at('tenon_length'),
    outline: outlineOf(stated),
    foot: footOf(stated, leg),
    clear,
    legLength: at('table_height') - thickness,
    support: {
      count: supportsFor(clear.along, at('support_gap')),
      width: at('support_width'),
      thickness: at('support_thickness'),
      length: width - 2 * (overSide + apron.setback + apron.thickness),
    },
  };
  return { ...table, pieces: [...legs(table), ...aprons(table), ...supports(table), top(table)] };
}

function outlineOf(stated: Stated): Outline {
  const word = wordOf(stated, 'top_shape');
  if (word === 'round' || word === 'oval') return { kind: 'oval' };
  const radius = word === 'rounded corners' ? inputOf(stated, 'corner_radius') : 0;
  return { kind: 'corners', radius };
}

function footOf(stated: Stated, leg: number): OwnTable['foot'] {
  const word = wordOf(stated, 'leg_shape');
  if (word === 'straight') return { size: leg, below: 0, in: 0 };
  const size = inputOf(stated, 'leg_foot');
  const isAllAround = word.includes('four');
  return { size, below: inputOf(stated, 'taper_below'), in: isAllAround ? (leg - size) / 2 : 0 };
}

type Sizes = Omit<OwnTable, 'pieces'>;

const top = ({ length, width, thickness, legLength }: Sizes): Piece => ({
  name: 'top',
  from: [0, 0, legLength],
  size: [length, width, thickness],
});

const legs = ({ length, width, leg, overEnd, overSide, legLength }: Sizes): Piece[] =>
  [overEnd, length - overEnd - leg].flatMap((x) =>
    [overSide, width - overSide - leg].map(
      (y): Piece => ({ name: 'leg', from: [x, y, 0], size: [leg, leg, legLength] }),
    ),
  );

/** Boxes around what the maker cuts: tenons reach into the legs, as long as they are. */
function aprons(table: Sizes): Piece[] {
  const { length, width, leg, overEnd, overSide, apron, tenon, clear, legLength } = table;
  const z = legLength - apron.width;
  const along = [overSide + apron.setback, width - overSide - apron.setback - apron.thickness];
  const across = [overEnd + apron.setback, length - overEnd - apron.setback - apron.thickness];
  return [
    ...along.map(
      (y): Piece => ({
        name: 'long apron',
        from: [overEnd + leg - tenon, y, z],
        size: [clear.along + 2 * tenon, apron.thickness, apron.width],
      }),
    ),
    ...across.map(
      (x): Piece => ({
        name: 'short apron',
        from: [x, overSide + leg - tenon, z],
        size: [apron.thickness, clear.across + 2 * tenon, apron.width],
      }),
    ),
  ];
}

function supports({ overEnd, overSide, leg, apron, clear, legLength, support }: Sizes): Piece[] {
  const way = clear.along / (support.count + 1);
  return Array.from({ length: support.count }, (_, i) => ({
    name: 'cross support',
    from: [
      overEnd + leg + way * (i + 1) - support.thickness / 2,
      overSide + apron.setback + apron.thickness,
      legLength - support.width,
    ],
    size: [support.thickness, support.length, support.width],
  }));
}
