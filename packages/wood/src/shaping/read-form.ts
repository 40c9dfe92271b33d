import type {
  EdgeForm,
  EndsForm,
  Lean,
  OutlineForm,
  PartForm,
  ShapeCells,
  ShapeColumn,
  ShapeTrouble,
} from './form.ts';
import { SHAPE_SAYS, ShapeWordFault } from './says.ts';
import { readEdge, readEnds, readOutline, readTaper } from './words.ts';

/** What the heads of a row's shape come to. */
export interface FormReading {
  /** Left out where the part is a box. */
  readonly form?: PartForm;
  /** Left out where it does not lean. */
  readonly lean?: Lean;
  /** What cannot be read; the rest is there. */
  readonly wrong: readonly ShapeTrouble[];
}

const STEEPEST = 60;

/**
 * Reads how a part is shaped from what its row says.
 * @param part its name, for sentences
 */
export function readForm(part: string, cells: ShapeCells): FormReading {
  const wrong: ShapeTrouble[] = [];
  const said = <T>(column: ShapeColumn, read: () => T): T | undefined => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof ShapeWordFault)) throw error;
      wrong.push({ column, says: error.message });
      return undefined;
    }
  };
  const outline = outlineOf(part, cells, said);
  const taper = taperOf(part, cells, said);
  const edge = edgeOf(part, cells, said);
  const { ends: endWords, arch } = cells;
  const ends =
    endWords === undefined ? undefined : said('ends', (): EndsForm => readEnds(part, endWords));
  const lean = leanOf(part, cells, wrong);
  const form: PartForm = {
    ...(outline === undefined ? {} : { outline }),
    ...(taper === undefined ? {} : { taper }),
    ...(arch === undefined ? {} : { arch }),
    ...(ends === undefined ? {} : { ends }),
    ...(edge === undefined ? {} : { edge }),
  };
  return {
    wrong,
    ...(Object.keys(form).length === 0 ? {} : { form }),
    ...(lean === undefined ? {} : { lean }),
  };
}

type Said = <T>(column: ShapeColumn, read: () => T) => T | undefined;

const refuse = (says: string): never => {
  throw new ShapeWordFault(says);
};

function outlineOf(
  part: string,
  { shape, corner }: ShapeCells,
  said: Said,
): OutlineForm | undefined {
  const read = shape === undefined ? undefined : said('shape', () => readOutline(part, shape));
  if (read === undefined)
    return corner === undefined ? undefined : { kind: 'rounded', radius: corner };
  if (read.kind === 'rounded') {
    return said('shape', () =>
      corner === undefined
        ? refuse(SHAPE_SAYS.noRadius(part))
        : ({ kind: 'rounded', radius: corner } as const),
    );
  }
  if (corner !== undefined) {
    said('corner', () => refuse(SHAPE_SAYS.noCorners(part, outlineWord(read))));
  }
  return read;
}

/** How a sentence calls an outline. */
export const outlineWord = ({ kind }: { readonly kind: OutlineForm['kind'] }): string =>
  ({
    round: 'round',
    oval: 'oval',
    superellipse: 'a superellipse',
    rounded: 'one with rounded corners',
    rod: 'a rod',
  })[kind];

function taperOf(part: string, cells: ShapeCells, said: Said): PartForm['taper'] {
  const { taper, 'taper to': to, 'taper from': from } = cells;
  if (taper === undefined) {
    for (const [column, value] of [
      ['taper to', to],
      ['taper from', from],
    ] as const) {
      if (value !== undefined) said(column, () => refuse(SHAPE_SAYS.noTaper(part, column)));
    }
    return undefined;
  }
  const faces = said('taper', () => readTaper(part, taper));
  if (faces === undefined) return undefined;
  return said('taper', () =>
    to === undefined ? refuse(SHAPE_SAYS.noTaperTo(part)) : { faces, to, from: from ?? 0 },
  );
}

function edgeOf(
  part: string,
  { edge, 'edge size': size }: ShapeCells,
  said: Said,
): EdgeForm | undefined {
  if (edge === undefined) {
    if (size !== undefined) said('edge size', () => refuse(SHAPE_SAYS.noEdge(part)));
    return undefined;
  }
  const read = said('edge', () => readEdge(part, edge));
  if (read === undefined) return undefined;
  return said('edge', () =>
    size === undefined ? refuse(SHAPE_SAYS.noEdgeSize(part)) : { ...read, size },
  );
}

function leanOf(part: string, cells: ShapeCells, wrong: ShapeTrouble[]): Lean | undefined {
  const [along, across] = (['splay along', 'splay across'] as const).map((column) => {
    const angle = cells[column] ?? 0;
    if (Math.abs(angle) <= STEEPEST) return angle;
    wrong.push({ column, says: SHAPE_SAYS.splay(part, column, `${Number(angle.toPrecision(6))}`) });
    return 0;
  }) as [number, number];
  return along === 0 && across === 0 ? undefined : { along, across };
}
