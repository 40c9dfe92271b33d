/** How wide a column wants to be on paper and how narrow it may be, mm. */
export interface ColumnNeed {
  readonly natural: number;
  /** What its longest number or word takes. */
  readonly least: number;
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

/** Room that is left goes to those that want more, in the measure in which they do. */
function widened(
  columns: readonly number[],
  needs: readonly ColumnNeed[],
  width: number,
): ColumnGroup {
  const of = (at: number): ColumnNeed => needs[at] as ColumnNeed;
  const least = columns.reduce((sum, at) => sum + of(at).least, 0);
  const wanted = columns.reduce((sum, at) => sum + wantedBy(of(at)), 0);
  // What cannot be told apart from the whole page is narrowed to it: a single word longer than a page.
  const share = wanted <= least ? 0 : Math.min(1, Math.max(0, (width - least) / (wanted - least)));
  const widths = columns.map((at) => of(at).least + (wantedBy(of(at)) - of(at).least) * share);
  const whole = widths.reduce((sum, one) => sum + one, 0);
  return {
    columns,
    widths: whole > width ? widths.map((one) => (one * width) / whole) : widths,
  };
}

const wantedBy = ({ natural, least }: ColumnNeed): number => Math.max(natural, least);
