import { childrenOf, type Node } from '@kerfbook/document';
import { ourFunction, standardFunction } from '@kerfbook/functions';
import type { UnitSystem } from '@kerfbook/wood';
import { AREA_HOLDS, areaForm } from './area-form.ts';
import { type FigureSource, figureForm } from './figure-forms.ts';
import { readsRanges, takesThere, writtenFunction } from './known-functions.ts';
import { priceForm } from './price-forms.ts';
import { standardForm } from './standard-forms.ts';
import { tableForm } from './table-forms.ts';

/** What becomes of a formula in another program: it goes along, or why its last value stands for it. */
export type Outcome =
  | {
      readonly kept: true;
      readonly root: Node;
      readonly isArray: boolean;
      readonly isWrittenOut: boolean;
      readonly holds?: string;
    }
  | { readonly kept: false; readonly why: string };

/** Why a formula stays behind that comes to several values. */
export const FILLS = 'It fills several cells.';

/** Calls and brackets within each other: the format's limit for calls is 64. */
const DEEPEST = 60;

/** Decides by the formula alone; whether what is written out comes to the same is looked at by who asks. */
export function outcomeOf(root: Node, system: UnitSystem, figures?: FigureSource): Outcome {
  const found: { why: string | undefined; isWrittenOut: boolean; holds: string | undefined } = {
    why: undefined,
    isWrittenOut: false,
    holds: undefined,
  };
  const joinedArea = (
    { name }: { readonly name: string },
    args: readonly Node[],
    source: FigureSource,
  ): Node | undefined => {
    const form = areaForm(name, args, system, source);
    if (form !== undefined) found.holds = AREA_HOLDS;
    return form;
  };
  const out = (node: Node, depth: number): Node => {
    if (depth > DEEPEST) found.why ??= 'It is nested deeper than other programs read.';
    if (found.why !== undefined) return node;
    switch (node.kind) {
      case 'call': {
        const args = node.args.map((arg) => out(arg, depth + 1));
        if (found.why !== undefined) return node;
        if (ourFunction(node.name) === undefined) {
          found.why = troubleOf(node.name, args.length);
          return args.every((arg, at) => arg === node.args[at]) ? node : { ...node, args };
        }
        const form =
          standardForm(node.name, args, system) ??
          (figures === undefined
            ? undefined
            : (figureForm(node.name, args, system, figures) ??
              tableForm(node.name, args, figures) ??
              joinedArea(node, args, figures) ??
              priceForm(node.name, args, system, figures)));
        if (form === undefined) {
          found.why = `${node.name} is a function of Kerfbook that other programs do not have${restsOn(node.name)}.`;
          return node;
        }
        found.isWrittenOut = true;
        return form;
      }
      case 'sign':
      case 'bracket': {
        const of = out(node.of, depth + (node.kind === 'bracket' ? 1 : 0));
        return of === node.of ? node : { ...node, of };
      }
      case 'joined': {
        const [left, right] = [out(node.left, depth), out(node.right, depth)];
        return left === node.left && right === node.right ? node : { ...node, left, right };
      }
      default:
        return node;
    }
  };
  const written = out(root, 0);
  if (found.why !== undefined) return { kept: false, why: found.why };
  const ranges = hasRange(written) ? rangesIn(written) : 'whole';
  if (ranges === 'spread') return { kept: false, why: FILLS };
  return {
    kept: true,
    root: written,
    isArray: ranges === 'array',
    isWrittenOut: found.isWrittenOut,
    ...(found.holds === undefined ? {} : { holds: found.holds }),
  };
}

/** What it would take that no formula does. */
const RESTS_ON: readonly (readonly [RegExp, string])[] = [
  [/^(?:PLAN|SHEETS)_/, 'a cutting plan'],
  [/^PARTS_/, 'how pieces are shaped, joined and placed'],
  [
    /^(?:SWING_FOLLOWED|MOISTURE_LAG|CUP_DEPTH|PANEL_MOISTURE)$/,
    'how moisture moves through a year',
  ],
];

function restsOn(name: string): string {
  const what = RESTS_ON.find(([pattern]) => pattern.test(name))?.[1];
  return what === undefined ? '' : `; it rests on ${what}`;
}

function troubleOf(name: string, args: number): string | undefined {
  if (standardFunction(name) === undefined) return undefined;
  if (writtenFunction(name) === undefined) {
    return standardFunction(name)?.spills === true
      ? FILLS
      : `${name} is no function of the file's format.`;
  }
  return takesThere(name, args)
    ? undefined
    : `Other programs want other arguments of ${name} than it is given here.`;
}

/** Whether there is a range in a formula, or a constant table. */
const hasRange = (node: Node): boolean =>
  node.kind === 'array' ||
  (node.kind === 'reference' && node.to.to !== undefined) ||
  childrenOf(node).some(hasRange);

/**
 * How a formula reads its ranges: each as a whole, some cell by cell on the way to one value, or cell by cell to
 * several values.
 */
function rangesIn(root: Node): 'whole' | 'array' | 'spread' {
  let found: 'whole' | 'array' | 'spread' = 'whole';
  const look = (
    node: Node,
    within: { readonly reduced: boolean; readonly natural: boolean; readonly direct: boolean },
  ): void => {
    if ((node.kind === 'reference' && node.to.to !== undefined) || node.kind === 'array') {
      if (within.direct || (node.kind === 'array' && within.reduced)) return;
      if (!within.reduced) found = 'spread';
      else if (!within.natural && found === 'whole') found = 'array';
      return;
    }
    const reads = node.kind === 'call' && readsRanges(node.name);
    const next = {
      reduced: within.reduced || reads,
      // SUMPRODUCT works its arguments out cell by cell by itself, as long as they are plain sums and products.
      natural: node.kind === 'call' ? node.name === 'SUMPRODUCT' : within.natural,
      direct: reads || (node.kind === 'bracket' && within.direct),
    };
    for (const child of childrenOf(node)) look(child, next);
  };
  look(root, { reduced: false, natural: false, direct: false });
  return found;
}
