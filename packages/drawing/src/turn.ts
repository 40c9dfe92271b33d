/**
 * How a piece is turned: which of its sides (L length, W width, T thickness) runs along x, y and z.
 * `LWT` lies flat, `WTL` stands.
 */
export type Turn = 'LWT' | 'LTW' | 'WLT' | 'WTL' | 'TLW' | 'TWL';

const TURNS: readonly Turn[] = ['LWT', 'LTW', 'WLT', 'WTL', 'TLW', 'TWL'];

export function readTurn(text: string): Turn | undefined {
  const wanted = text.trim().toUpperCase();
  return TURNS.find((turn) => turn === wanted);
}

interface Sizes {
  readonly thickness: number;
  readonly width: number;
  readonly length: number;
}

/** The lengths of a piece along x, y and z. */
export function alongAxes(turn: Turn, sizes: Sizes): readonly [number, number, number] {
  const side = (letter: string | undefined): number => {
    if (letter === 'L') return sizes.length;
    return letter === 'W' ? sizes.width : sizes.thickness;
  };
  return [side(turn[0]), side(turn[1]), side(turn[2])];
}

/** The axis a side of the piece runs along. */
export function axisOf(turn: Turn, side: 'length' | 'width'): 'x' | 'y' | 'z' {
  const place = turn.indexOf(side === 'length' ? 'L' : 'W');
  if (place === 0) return 'x';
  return place === 1 ? 'y' : 'z';
}
