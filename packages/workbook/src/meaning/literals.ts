import { type BinarySign, type Node, nodesOf } from '@kerfbook/document';
import { ourFunction, standardFunction } from '@kerfbook/functions';
import type { Quantity } from '@kerfbook/wood';
import { type Around, infer } from './infer.ts';
import { combine, type Dims, type Meaning, meaningOf, measureOf, sameDims } from './measure.ts';

/** What a number typed in a formula stands for. */
export interface Literal {
  readonly dims: Dims;
  /** Degrees between two temperatures, and no temperature. */
  readonly between?: true;
  /** A screw's gauge, which a metric workbook takes in words only. */
  readonly gauge?: true;
}

/**
 * What the numbers typed in a formula stand for, where it tells: beside a length in a sum a number is a length, as
 * an argument for an area an area, in a product what is missing to what the cell is for. Others are bare numbers.
 */
export function literalsIn(
  root: Node,
  around: Around,
  quantity: Quantity | undefined,
): ReadonlyMap<Node, Literal> {
  const looking = new Looking(around);
  looking.want(root, quantity === undefined ? undefined : dimsOf(meaningOf(quantity)));
  return looking.found;
}

/** Functions whose results are among their arguments, from which one on. */
const CHOOSING: Readonly<Record<string, number>> = { CHOOSE: 1, IFS: 1, SWITCH: 2 };

const dimsOf = (meaning: Meaning): Dims | undefined =>
  meaning.kind === 'measure' ? meaning.dims : undefined;

const isHeat = (dims: Dims): boolean => sameDims(dims, { heat: 1 });

class Looking {
  readonly found = new Map<Node, Literal>();
  readonly #around: Around;

  constructor(around: Around) {
    this.#around = around;
  }

  /** Looks at a part of the formula of which is known what it comes to. */
  want(node: Node, dims: Dims | undefined, between?: true): void {
    switch (node.kind) {
      case 'number':
        if (dims !== undefined && !sameDims(dims, {})) {
          this.found.set(node, { dims, ...(between === undefined ? {} : { between }) });
        }
        return;
      case 'bracket':
        this.want(node.of, dims, between);
        return;
      case 'sign':
        // `15%` is a share of whatever it is beside.
        this.want(node.of, node.sign === '%' ? undefined : dims, between);
        return;
      case 'joined':
        this.#joined(node, dims, between);
        return;
      case 'call':
        this.#call(node.name, node.args, dims);
        return;
      default:
        return;
    }
  }

  /** What a part comes to by itself. */
  #of(node: Node): Dims | undefined {
    return dimsOf(infer(node, this.#around).meaning);
  }

  #joined(node: Node & { kind: 'joined' }, dims: Dims | undefined, between?: true): void {
    const { sign, left, right } = node;
    if (sign === '*' || sign === '/') {
      this.#product(node, dims);
      return;
    }
    if (sign === '^') {
      this.want(left, undefined);
      this.want(right, undefined);
      return;
    }
    if (sign === '&') {
      this.want(left, undefined);
      this.want(right, undefined);
      return;
    }
    const both = this.#of(left) ?? this.#of(right) ?? (isCompared(sign) ? undefined : dims);
    // Degrees are added to a temperature; of two that are compared each is one.
    const more = !isCompared(sign) && both !== undefined && isHeat(both) ? true : between;
    this.want(left, both, between);
    this.want(right, both, more);
  }

  /** What numbers in a product are missing to what it is to come to, the first of them is taken for. */
  #product(node: Node, dims: Dims | undefined): void {
    const factors: { readonly node: Node; readonly power: 1 | -1 }[] = [];
    const gather = (one: Node, power: 1 | -1): void => {
      if (one.kind === 'bracket' && one.of.kind === 'joined' && isProduct(one.of.sign)) {
        gather(one.of, power);
      } else if (one.kind === 'joined' && isProduct(one.sign)) {
        gather(one.left, power);
        gather(one.right, one.sign === '*' ? power : power === 1 ? -1 : 1);
      } else factors.push({ node: one, power });
    };
    gather(node, 1);
    let rest: Dims = {};
    for (const one of factors) {
      if (isLiteral(one.node)) continue;
      const own = this.#of(one.node);
      this.want(one.node, own);
      if (own !== undefined) rest = combine(rest, own, one.power);
    }
    if (dims === undefined) return;
    const missing = measureOf(combine(combine({}, dims, 1), rest, -1));
    const literals = factors.filter((one) => isLiteral(one.node));
    // Board feet and liquid are made of inches by a number that is divided by.
    const isMade = missing.boardfeet !== undefined || missing.liquid !== undefined;
    const divisor = isMade ? literals.find(({ power }) => power === -1) : undefined;
    const literal = divisor ?? literals[0];
    if (literal !== undefined) this.want(literal.node, combine({}, missing, literal.power));
  }

  #call(name: string, args: readonly Node[], dims: Dims | undefined): void {
    const ours = ourFunction(name);
    if (ours !== undefined) {
      args.forEach((arg, i) => {
        const argument = ours.args[i];
        if (argument?.notInMetric !== undefined && arg.kind === 'number') {
          this.found.set(arg, { dims: {}, gauge: true });
          return;
        }
        this.want(arg, argument && dimsOf(meaningOf(argument.quantity)));
      });
      return;
    }
    const first = (nodes: readonly Node[]): Dims | undefined =>
      nodes.map((one) => this.#of(one)).find((one) => one !== undefined) ?? dims;
    const all = (nodes: readonly (Node | undefined)[], wanted: Dims | undefined): void => {
      for (const one of nodes) if (one !== undefined) this.want(one, wanted);
    };
    const [a, b, c, ...others] = args;
    switch (standardFunction(name)?.gives) {
      case 'all':
        all(args, first(args));
        return;
      case 'step':
        all([a, b], first(args));
        all([c, ...others], undefined);
        return;
      case 'if':
        all([a], undefined);
        all([b, c], first(args.slice(1)));
        return;
      case 'instead':
        all([a, b], first(args));
        return;
      case 'chosen':
        all([a, b], undefined);
        all([c], dims);
        return;
      case 'first':
      case 'range':
        all([a], first(args.slice(0, 1)));
        all([b, c, ...others], undefined);
        return;
      default: {
        const from = CHOOSING[name] ?? args.length;
        all(args.slice(0, from), undefined);
        all(args.slice(from), dims);
      }
    }
  }
}

/** Numbers and signs alone. */
const isLiteral = (node: Node): boolean => [...nodesOf(node)].every(({ kind }) => PLAIN.has(kind));
const PLAIN: ReadonlySet<Node['kind']> = new Set(['number', 'bracket', 'sign', 'joined']);

const isProduct = (sign: BinarySign): boolean => sign === '*' || sign === '/';

const COMPARED: ReadonlySet<BinarySign> = new Set(['=', '<>', '<', '>', '<=', '>=']);
const isCompared = (sign: BinarySign): boolean => COMPARED.has(sign);
