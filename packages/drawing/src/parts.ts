import type { At } from '@kerfbook/workbook';
import { type Header, readHeader, type TablePlace } from './columns.ts';
import { PartRow, trouble } from './part-row.ts';
import type { PartProblem, PartsSource } from './parts-source.ts';
import type { Turn } from './turn.ts';

/** Where the pieces of a part are: mm, near-left-bottom corner of the first one. */
export interface Placing {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** From one copy to the next, mm. */
  readonly step: { readonly x: number; readonly y: number; readonly z: number };
  readonly turn: Turn;
}

/** The boards a wide part is glued up of; mm, before jointing and trimming. */
export interface Staves {
  readonly count: number;
  readonly width: number;
  readonly length: number;
}

/** One row of the parts table; all sizes in mm. */
export interface Part {
  /** The cell that holds the part's name. */
  readonly at: At;
  /** The cell that holds its count, or the name's cell where there is no such column. */
  readonly countAt: At;
  readonly name: string;
  readonly count: number;
  readonly thickness: number;
  readonly width: number;
  readonly length: number;
  readonly material?: string;
  /** Boards it is glued up of, edge to edge; left out where it is one piece. */
  readonly staves?: Staves;
  /** The side the grain runs along; left out where the row does not say. */
  readonly grain?: 'length' | 'width';
  /** Left out where the row gives no position, or one that cannot be read. */
  readonly placing?: Placing;
}

export interface PartsReading {
  /** False: the workbook has no parts table. */
  readonly found: boolean;
  readonly parts: readonly Part[];
  readonly problems: readonly PartProblem[];
}

/**
 * The first parts table of a workbook, sizes turned to mm. A cell that cannot be read becomes one
 * problem at that cell; every other row is still read. A row with a bad size or count gives no
 * part; one with a bad position or turn gives a part without a place.
 */
export function readParts(source: PartsSource): PartsReading {
  const table = source.tables().find(({ kind }) => kind === 'parts');
  if (table === undefined) return { found: false, parts: [], problems: [] };
  const header = readHeader(source, table);
  const problems: PartProblem[] = [...header.problems];
  const parts: Part[] = [];
  if (header.columns.has('part')) {
    const rows = source.sheet(table.sheet)?.rows ?? 0;
    for (let row = table.header + 1; row <= Math.min(table.last, rows - 1); row++) {
      const part = readRow(source, table, header, row, problems);
      if (part !== undefined) parts.push(part);
    }
  }
  return { found: true, parts, problems };
}

function readRow(
  source: PartsSource,
  table: TablePlace,
  header: Header,
  row: number,
  problems: PartProblem[],
): Part | undefined {
  const line = new PartRow({ source, sheet: table.sheet, row, columns: header.columns, problems });
  const name = line.name();
  const at = line.at('part');
  if (name === undefined || at === undefined || line.isHeading()) return undefined;
  const count = line.count();
  if (count === trouble || count === 0) return undefined;
  const sizes = readSizes(line);
  const grain = line.grain();
  const placing = readPlacing(line);
  if (sizes === undefined) return undefined;
  const material = line.text('material');
  const staves = readStaves(line, sizes);
  return {
    at,
    countAt: line.at('count') ?? at,
    name,
    count,
    ...sizes,
    ...(material === undefined ? {} : { material }),
    ...(staves === undefined ? {} : { staves }),
    ...(grain === undefined ? {} : { grain }),
    ...(placing === undefined ? {} : { placing }),
  };
}

function readSizes(line: PartRow): Pick<Part, 'thickness' | 'width' | 'length'> | undefined {
  const thickness = line.size('thickness');
  const width = line.size('width');
  const length = line.size('length');
  if (thickness === trouble || width === trouble || length === trouble) return undefined;
  return { thickness, width, length };
}

/** Undefined for a part that is one piece, or where what it is glued up of cannot be read. */
function readStaves(line: PartRow, sizes: Pick<Part, 'width' | 'length'>): Staves | undefined {
  const count = line.staves();
  if (count === undefined || count === trouble) return undefined;
  const width = line.sizeOr('stave width', sizes.width / count);
  const length = line.sizeOr('stave length', sizes.length);
  return width === trouble || length === trouble ? undefined : { count, width, length };
}

/** Undefined where the row gives no position at all, or something in it cannot be read. */
function readPlacing(line: PartRow): Placing | undefined {
  const place = [line.distance('x'), line.distance('y'), line.distance('z')] as const;
  const step = [line.distance('step x'), line.distance('step y'), line.distance('step z')] as const;
  const turn = line.turn();
  const [x, y, z] = place;
  const [stepX, stepY, stepZ] = step;
  if (x === trouble || y === trouble || z === trouble || turn === trouble) return undefined;
  if (stepX === trouble || stepY === trouble || stepZ === trouble) return undefined;
  if (x === undefined && y === undefined && z === undefined) return undefined;
  return {
    x: x ?? 0,
    y: y ?? 0,
    z: z ?? 0,
    step: { x: stepX ?? 0, y: stepY ?? 0, z: stepZ ?? 0 },
    turn,
  };
}
