/** Rows that belong together and can be folded away, below the row that heads them. */
export interface RowGroup {
  /** Counted from 0. */
  readonly first: number;
  /** Counted from 0, `first` or after. */
  readonly last: number;
  /** 1 for the outermost, 2 for one inside another. */
  readonly depth: number;
  /** None of its rows is in sight. */
  readonly folded: boolean;
}

interface GroupedRow {
  readonly group?: number;
  readonly hidden?: true;
}

/** The groups of rows of a sheet, outer ones first, from the top down. */
export function rowGroups(rows: readonly GroupedRow[]): readonly RowGroup[] {
  const groups: RowGroup[] = [];
  const deepest = rows.reduce((most, { group = 0 }) => Math.max(most, group), 0);
  for (let depth = 1; depth <= deepest; depth += 1) {
    let first: number | undefined;
    for (let row = 0; row <= rows.length; row += 1) {
      const inside = (rows[row]?.group ?? 0) >= depth;
      if (inside) first ??= row;
      if (inside || first === undefined) continue;
      const folded = rows.slice(first, row).every(({ hidden }) => hidden === true);
      groups.push({ first, last: row - 1, depth, folded });
      first = undefined;
    }
  }
  return groups;
}
