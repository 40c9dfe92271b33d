/** How wide a column wants to be on paper and how narrow it may be, mm. */
export interface ColumnNeed {
  readonly natural: number;
  /** What its longest number or word takes. */
  readonly least: number;
  /** What its longest text takes on one line; as wide as on the screen where left out. */
  readonly most?: number;
}

/** Columns that stand beside each other on one page, by their place in the list of needs. */
export interface ColumnGroup {
  readonly columns: readonly number[];
  /** mm */
  readonly widths: readonly number[];
}

/**
 * Puts columns on pages of a width without ever making letters smaller: as wide as on the screen where
 * they fit, narrower where their words can be broken, and the rest on further pages, each of which begins
 * with the first column again, which says what a row is.
 */
export function fitColumns(needs: readonly ColumnNeed[], width: number): readonly ColumnGroup[] {
  const groups: ColumnGroup[] = [];
  const [first] = needs;
  if (first === undefined) return groups;
  let columns = [0];
  let used = first.least;
  for (let at = 1; at < needs.length; at += 1) {
    const { least } = needs[at] as ColumnNeed;
    if (columns.length > 1 && used + least > width) {
      groups.push(widened(columns, needs, width));
      columns = [0];
      used = first.least;
    }
    columns.push(at);
    used += least;
  }
  groups.push(widened(columns, needs, width));
  return groups;
}

/**
 * Room is given out in steps, in each to all columns in the same measure: the least, then what stands in them as
 * far as it was given room on the screen, then the width on the screen, then whole texts on one line.
 */
function widened(
  columns: readonly number[],
  needs: readonly ColumnNeed[],
  width: number,
): ColumnGroup {
  const steps = columns.map((at) => stepsOf(needs[at] as ColumnNeed));
  let widths = steps.map(([least]) => least);
  for (const step of [1, 2, 3] as const) {
    const spare = width - sumOf(widths);
    const wanted = steps.map((one, i) => Math.max(0, one[step] - (widths[i] ?? 0)));
    const share = spare <= 0 ? 0 : Math.min(1, spare / Math.max(sumOf(wanted), spare));
    widths = widths.map((one, i) => one + (wanted[i] ?? 0) * share);
  }
  // What cannot be told apart from the whole page is narrowed to it: a single word longer than a page.
  const whole = sumOf(widths);
  return {
    columns,
    widths: whole > width ? widths.map((one) => (one * width) / whole) : widths,
  };
}

const stepsOf = ({ natural, least, most = natural }: ColumnNeed) =>
  [least, Math.min(natural, most), natural, most] as const;

const sumOf = (all: readonly number[]): number => all.reduce((sum, one) => sum + one, 0);
