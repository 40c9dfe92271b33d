import { around, boundsMeet, boundsOf, isWithin } from './bounds.ts';
import { clipped, otherSide, type Skin } from './clip.ts';
import { insideOf, spread, withoutTool } from './polygon.ts';
import type { Convex, Facet } from './types.ts';
import { opposite } from './vectors.ts';

/** Walls between cells are never shown, so they belong to no surface. */
const WALL: Skin = { surface: -1, curved: false };

/** What two convex bodies share; undefined where they share no room. */
export function shared(a: Convex, b: Convex): Convex | undefined {
  const bounds = boundsOf(a);
  if (!boundsMeet(bounds, boundsOf(b))) return undefined;
  let rest: Convex | undefined = a;
  for (const plane of b.facets) {
    if (isWithin(bounds, plane.normal, plane.offset)) continue;
    rest = clipped(rest, plane, WALL);
    if (rest === undefined) return undefined;
  }
  return rest;
}

/** What a convex tool leaves of a cell: the cell itself where they share no room. */
export function cellWithout(cell: Convex, tool: Convex): readonly Convex[] {
  const bounds = boundsOf(cell);
  if (!boundsMeet(bounds, boundsOf(tool))) return [cell];
  let core = cell;
  for (let index = 0; index < tool.facets.length; index++) {
    const plane = tool.facets[index]!;
    if (isWithin(bounds, plane.normal, plane.offset)) continue;
    const left = clipped(core, plane, { surface: -2 - index, curved: false });
    if (left === undefined) return [cell];
    core = left;
  }
  // Only planes that close what is taken away matter: a long tool would cut the cell in vain with the others.
  const closing = new Set(core.facets.map(({ surface }) => -2 - surface));
  const cells: Convex[] = [];
  let rest: Convex | undefined = cell;
  for (const plane of spread(tool.facets.filter((_, index) => closing.has(index)))) {
    if (rest === undefined) break;
    const beyond = clipped(rest, otherSide(plane), WALL);
    if (beyond !== undefined) cells.push(beyond);
    rest = clipped(rest, plane, WALL);
  }
  return cells;
}

/** What tools leave of a convex blank, as convex cells that share no room. */
export function cellsWithout(blank: Convex, tools: readonly Convex[]): readonly Convex[] {
  let cells: readonly Convex[] = [blank];
  for (const tool of tools) cells = cells.flatMap((cell) => cellWithout(cell, tool));
  return cells;
}

/**
 * The outside of a convex blank without tools: what is left of the blank's facets, and what of the tools'
 * facets lies in the blank and in no other tool, turned round.
 */
export function outsideWithout(blank: Convex, tools: readonly Convex[]): readonly Facet[] {
  const outside = blank.facets.flatMap((facet) => withoutTools(facet, tools, -1));
  tools.forEach((tool, index) => {
    for (const facet of tool.facets) {
      const inside = insideOf(facet, blank);
      if (inside !== undefined) outside.push(...withoutTools(inward(inside), tools, index));
    }
  });
  return outside;
}

/** A tool's facet as the wood's. */
const inward = (facet: Facet): Facet => ({
  ...facet,
  points: [...facet.points].reverse(),
  normal: opposite(facet.normal),
  offset: 0 - facet.offset,
});

/** What tools leave of a facet; one that is a tool's own (by its index) is left alone by it. */
function withoutTools(facet: Facet, tools: readonly Convex[], own: number): readonly Facet[] {
  let left: readonly Facet[] = [facet];
  tools.forEach((tool, index) => {
    if (index === own) return;
    const bounds = boundsOf(tool);
    left = left.flatMap((one) =>
      // Facets are flat, so that touching counts.
      boundsMeet(around(one.points), bounds, -TOUCH) ? withoutTool(one, tool, index < own) : [one],
    );
  });
  return left;
}

const TOUCH = 1e-5;
