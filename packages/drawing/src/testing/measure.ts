/** Reads an SVG the way somebody with a ruler would: what is drawn where, in mm. */

export interface Measured {
  readonly viewBox: readonly number[];
  readonly fontSize: number;
  readonly rects: readonly {
    readonly part: string;
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  }[];
  /** Texts of dimensions, in order. */
  readonly sizes: readonly { readonly key: string; readonly text: string }[];
  /** Tips of the arrowheads, in order: two for each dimension. */
  readonly tips: readonly (readonly [number, number])[];
  lines(name: string): readonly (readonly [x1: number, y1: number, x2: number, y2: number])[];
}

export function measure(svg: string): Measured {
  const attribute = (tag: string, name: string): string =>
    new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1] ?? '';
  const number = (tag: string, name: string): number => {
    const text = attribute(tag, name);
    return text === '' ? Number.NaN : Number(text);
  };
  const path = (name: string): string =>
    attribute(new RegExp(`<path class="${name}"[^>]*>`).exec(svg)?.[0] ?? '', 'd');
  return {
    viewBox: attribute(svg, 'viewBox').split(' ').map(Number),
    fontSize: number(/<g class="kb-text"[^>]*>/.exec(svg)?.[0] ?? '', 'font-size'),
    rects: [...svg.matchAll(/<rect [^>]*>/g)].map(([tag]) => ({
      part: attribute(tag, 'data-part'),
      x: number(tag, 'x'),
      y: number(tag, 'y'),
      width: number(tag, 'width'),
      height: number(tag, 'height'),
    })),
    sizes: [...svg.matchAll(/<text data-size="([^"]*)"[^>]*>([^<]*)<\/text>/g)].map(
      ([, key = '', text = '']) => ({ key, text }),
    ),
    tips: [...path('kb-arrow').matchAll(/M(\S+) ([^LZ]+)L/g)].map(
      ([, x, y]) => [Number(x), Number(y)] as const,
    ),
    lines: (name) =>
      [...path(name).matchAll(/M([-\d.]+) ([-\d.]+)([HVL])([-\d.]+)(?: ([-\d.]+))?/g)].map(
        ([, x, y, turn, to, end]) => {
          const from = [Number(x), Number(y)] as const;
          if (turn === 'H') return [...from, Number(to), from[1]] as const;
          return turn === 'V'
            ? ([...from, from[0], Number(to)] as const)
            : ([...from, Number(to), Number(end)] as const);
        },
      ),
  };
}
