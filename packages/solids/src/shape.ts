import { type Blank, blankOf, type Exact } from './blank.ts';
import type { ConvexCut, Cut, ToolCut } from './cuts.ts';
import { edgesOf } from './edges.ts';
import { type Faceting, USUAL_FACETING } from './faceting.ts';
import { fault, ShapeFault, type ShapeProblem, within } from './problem.ts';
import { shapedBy } from './shaping.ts';
import { Skins } from './skins.ts';
import { cellsWithout, outsideWithout, shared } from './subtract.ts';
import { toolsOf } from './tools.ts';
import type { Convex, Facet, Solid } from './types.ts';

/** A piece as it is described: plain data, so that equal shapes are equal texts. */
export interface Shape {
  /** What it is made from. */
  readonly blank: Blank;
  /** What is cut from that. */
  readonly cuts?: readonly Cut[];
  /** How curves are told by flat facets. */
  readonly faceting?: Partial<Faceting>;
}

/** A piece that could be made. */
export interface Shaped {
  /** It could. */
  readonly ok: true;
  /** As it is. */
  readonly solid: Solid;
  /** By formula, where nothing was cut from its blank: a curve's own, not that of its facets. */
  readonly exact: Exact | undefined;
}

/** A piece that could not be made. */
export interface NotShaped {
  /** It could not. */
  readonly ok: false;
  /** Why. */
  readonly problem: ShapeProblem;
}

/** The piece that a shape describes, or why there is none. */
export function shaped(shape: Shape): Shaped | NotShaped {
  const at: { cut: number | undefined } = { cut: undefined };
  try {
    return made(shape, at);
  } catch (error) {
    if (!(error instanceof ShapeFault)) throw error;
    return { ok: false, problem: { code: error.code, cut: at.cut, says: error.says } };
  }
}

const CONVEX = new Set<Cut['kind']>(['taper', 'end', 'chamfer', 'roundover']);
const isConvexCut = (cut: Cut): cut is ConvexCut => CONVEX.has(cut.kind);

function made(shape: Shape, at: { cut: number | undefined }): Shaped {
  const form = formOf(shape, at);
  return { ok: true, solid: solidOf(form), exact: form.exact };
}

/** A piece as a convex blank and the convex tools that are taken away from it. */
export interface Form {
  readonly body: Convex;
  readonly tools: readonly Convex[];
  readonly skins: Skins;
  readonly exact: Exact | undefined;
}

/** Works out blank and tools; `at` tells which cut it was at when it throws a {@link ShapeFault}. */
export function formOf(shape: Shape, at: { cut: number | undefined } = { cut: undefined }): Form {
  const faceting = facetingOf(shape);
  const skins = new Skins();
  const { body: blank, size, exact } = blankOf(shape.blank, faceting, skins);
  const cuts = shape.cuts ?? [];
  let body = blank;
  cuts.forEach((cut, index) => {
    at.cut = index;
    if (isConvexCut(cut)) body = shapedBy(cut, { body, size, skins, faceting });
  });
  const tools = cuts.flatMap((cut, index) => {
    at.cut = index;
    return isConvexCut(cut) ? [] : reaching(cut, toolsOf(cut, { size, skins, faceting }), body);
  });
  at.cut = undefined;
  return { body, tools, skins, exact: cuts.length === 0 ? exact : undefined };
}

function facetingOf({ faceting }: Shape): Faceting {
  const { tolerance, most } = { ...USUAL_FACETING, ...faceting };
  within('tolerance in mm', tolerance, 0.001, 10);
  within('number of facets', most, 12, 4000);
  if (most % 4 !== 0) {
    throw fault('range')`The number of facets is ${`${most}`}; give one that 4 goes into.`;
  }
  return { tolerance, most };
}

/** A tool that takes nothing is not where it was meant to be. */
function reaching(cut: ToolCut, tools: readonly Convex[], body: Convex): readonly Convex[] {
  if (tools.some((tool) => shared(body, tool) !== undefined)) return tools;
  const name = cut.kind === 'tenon' ? 'cut around the tenon' : cut.kind;
  throw fault(
    'outside',
  )`The ${name} lies outside the piece; move it onto the wood or take it away.`;
}

/** What is left of a form: its cells, outside and edges. */
export function solidOf({ body, tools, skins }: Form): Solid {
  const cells = cellsWithout(body, tools);
  if (cells.length === 0) {
    throw fault(
      'nothing',
    )`The cuts take all of the piece; expected them to leave some wood, so make them smaller.`;
  }
  const isWhole = tools.length === 0;
  const facets = isWhole ? body.facets : outsideWithout(body, tools);
  const { edges } = edgesOf(facets, (one, other) => isSmooth(one, other, skins), isWhole);
  return { cells, facets, edges };
}

const isSmooth = (one: Facet, other: Facet, skins: Skins): boolean =>
  one.surface === other.surface ? one.curved : skins.areFlowing(one.surface, other.surface);
