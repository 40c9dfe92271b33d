import { childrenOf, type Node } from '@kerfbook/document';
import { ourFunction } from '@kerfbook/functions';
import type { Computing, Size, Taken } from '@kerfbook/functions/computing';
import { PLAIN } from './functions.ts';
import { cellsOf, isMany, largest, ONE, placesOf } from './many.ts';
import { NotCompiled } from './not-compiled.ts';
import { oursAs } from './ours.ts';

/** Tells how many values the parts of a formula come to, before it is worked out. */
export class Sizes {
  readonly #range: (node: Node) => Size;
  readonly #known = new Map<Node, Size>();

  /** @param range the size of what is written as a range */
  constructor(range: (node: Node) => Size) {
    this.#range = range;
  }

  /** @throws NotCompiled where that is not told beforehand */
  of(node: Node): Size {
    const known = this.#known.get(node);
    if (known !== undefined) return known;
    const size = this.#of(node);
    this.#known.set(node, size);
    return size;
  }

  isMany(node: Node): boolean {
    return isMany(this.of(node));
  }

  /**
   * Into how many cells a formula would write: the other engine tells that from how it is written, even where
   * it comes to one value in the end.
   */
  fills(node: Node): Size {
    switch (node.kind) {
      case 'reference':
      case 'array':
        return this.of(node);
      case 'bracket':
      case 'sign':
        return this.fills(node.of);
      case 'joined':
        return largest([this.fills(node.left), this.fills(node.right)]);
      case 'call':
        return this.#callFills(node.name, node.args);
      default:
        return ONE;
    }
  }

  #callFills(name: string, args: readonly Node[]): Size {
    const about = PLAIN.get(name) ?? asOurs(name);
    if (about === undefined || about.spread) return ONE;
    if (about.size !== undefined) return this.#sizeOf(name, about.size, args);
    if (about.once) return ONE;
    const takes = [...about.takes];
    while (takes.length < args.length) {
      if (about.again === undefined) return ONE;
      takes.push(...takes.slice(takes.length - about.again));
      if (takes.length > args.length) return ONE;
    }
    const single = args.filter((_, i) => isSingle(takes[i]?.as));
    return largest(single.map((arg) => this.fills(arg)));
  }

  #of(node: Node): Size {
    switch (node.kind) {
      case 'reference':
        return node.to.to === undefined ? ONE : this.#range(node);
      case 'bracket':
      case 'sign':
        return this.of(node.of);
      case 'joined':
        return largest([this.of(node.left), this.of(node.right)]);
      case 'array':
        return this.#array(node.rows);
      case 'call':
        return this.#call(node.name, node.args);
      default:
        return ONE;
    }
  }

  #array(lines: readonly (readonly Node[])[]): Size {
    const sizes = lines.map((line) => line.map((one) => this.of(one)));
    const widths = sizes.map((line) => line.reduce((sum, { columns }) => sum + columns, 0));
    const heights = sizes.map((line) => line[0]?.rows ?? 1);
    const isEven =
      widths.every((width) => width === widths[0]) &&
      sizes.every((line, i) => line.every(({ rows }) => rows === heights[i]));
    if (!isEven) throw new NotCompiled('{…}');
    return { columns: widths[0] ?? 1, rows: heights.reduce((sum, rows) => sum + rows, 0) };
  }

  #call(name: string, args: readonly Node[]): Size {
    const about = PLAIN.get(name) ?? asOurs(name);
    if (about === undefined || about.spread || placesOf(about, args.length) === undefined)
      return ONE;
    const over = this.over(about, args, name);
    return about.size === undefined ? over : this.#sizeOf(name, about.size, args);
  }

  #sizeOf(name: string, size: NonNullable<Computing['size']>, args: readonly Node[]): Size {
    const given = args.map((arg) => this.of(arg));
    const written = args.map((arg) => (arg.kind === 'number' ? arg.value : undefined));
    const told = size(given, written);
    if (told === undefined) throw new NotCompiled(name);
    return told;
  }

  /** For how many values a function is asked: those of its arguments where it takes one. */
  over(about: Computing, args: readonly Node[], name: string): Size {
    const places = placesOf(about, args.length) ?? [];
    const single = args.filter((_, i) => isSingle(places[i]?.as));
    const sizes = single.map((arg) => this.of(arg)).filter(isMany);
    const all = largest(sizes);
    const goes = (mine: number, most: number): boolean => mine === 1 || mine === most;
    const isEven = sizes.every(
      ({ columns, rows }) => goes(columns, all.columns) && goes(rows, all.rows),
    );
    if (!isEven) throw new NotCompiled('ranges of different sizes');
    if (cellsOf(all) === 1) return all;
    if (about.size !== undefined || about.once) throw new NotCompiled(name);
    if (sizes.length > 1 && single.some((arg) => this.#varies(arg))) throw new NotCompiled(name);
    return all;
  }

  /** Whether there may be fewer values than is told beforehand. */
  #varies(node: Node): boolean {
    if (node.kind === 'call' && PLAIN.get(node.name)?.varies) return true;
    return node.kind !== 'reference' && childrenOf(node).some((part) => this.#varies(part));
  }
}

const isSingle = (as: Taken['as'] | undefined): boolean => as !== 'range' && as !== 'either';

function asOurs(name: string): Computing | undefined {
  const ours = ourFunction(name);
  return ours && oursAs(ours);
}
