/**
 * How a piece is turned: which of its sides (L length, W width, T thickness) runs along x, y and z.
 * `LWT` lies flat, `WTL` stands.
 */
export type Turn = 'LWT' | 'LTW' | 'WLT' | 'WTL' | 'TLW' | 'TWL';

const TURNS: readonly Turn[] = ['LWT', 'LTW', 'WLT', 'WTL', 'TLW', 'TWL'];

/** The turn that three letters say, in any case; undefined where they say none. */
export function readTurn(text: string): Turn | undefined {
  const wanted = text.trim().toUpperCase();
  return TURNS.find((turn) => turn === wanted);
}

/** The sides of a piece, in one unit of length. */
export interface Sides {
  /** The least of them, by custom. */
  readonly thickness: number;
  /** Across the grain, by custom. */
  readonly width: number;
  /** Along the grain, by custom. */
  readonly length: number;
}

/** The lengths of a piece along x, y and z, in the unit of its sides. */
export function alongAxes(turn: Turn, sides: Sides): readonly [number, number, number] {
  const side = (letter: string | undefined): number => {
    if (letter === 'L') return sides.length;
    return letter === 'W' ? sides.width : sides.thickness;
  };
  return [side(turn[0]), side(turn[1]), side(turn[2])];
}
