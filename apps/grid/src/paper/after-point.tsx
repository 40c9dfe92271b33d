import type { ReactNode } from 'react';
import { decimalsIn } from '../sheet/points.ts';

interface AfterPointProps {
  readonly digits: number;
  /** Whether the number has no point itself. */
  readonly point: boolean;
}

/** Room behind a number for the decimals it has fewer than its column: points stand below each other. */
export function AfterPoint({ digits, point }: AfterPointProps) {
  return (
    <span className="after-point" data-room={decimalsText(digits, point)} aria-hidden="true" />
  );
}

/** The decimals that room is left for. */
export const decimalsText = (digits: number, point: boolean): string =>
  `${point ? '.' : ''}${'0'.repeat(digits)}`;

/** A column of a table with its numbers set by their points; what is no number stays as it is. */
export function setByPoint(column: readonly ReactNode[]): readonly ReactNode[] {
  const decimals = column.map((one) =>
    typeof one === 'string' || typeof one === 'number' ? decimalsIn(String(one)) : undefined,
  );
  const longest = Math.max(0, ...decimals.map((one) => one ?? 0));
  return column.map((one, i) => {
    const own = decimals[i] ?? longest;
    if (own === longest) return one;
    return (
      <>
        {one}
        <AfterPoint digits={longest - own} point={own === 0} />
      </>
    );
  });
}
