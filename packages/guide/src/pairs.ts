/** Which of its choices each list stands at, 0 where it stays as it is. */
export type Row = readonly number[];

/**
 * Rows in which any two choices of different lists stand together at least once: there are few of them, since each row
 * meets many pairs. Pairs with a list as it is are not sought.
 * @param counts how many choices each list has besides the one it stands at
 */
export function pairedRows(counts: readonly number[]): readonly Row[] {
  const wanted = new Map<string, readonly [Spot, Spot]>();
  for (const [i, first] of counts.entries()) {
    for (const [more, second] of counts.slice(i + 1).entries()) {
      for (let a = 1; a <= first; a += 1) {
        for (let b = 1; b <= second; b += 1) {
          const [one, other]: readonly [Spot, Spot] = [
            [i, a],
            [i + 1 + more, b],
          ];
          wanted.set(keyOf(one, other), [one, other]);
        }
      }
    }
  }
  const rows: Row[] = [];
  while (wanted.size > 0) {
    const [seed] = wanted.values();
    if (seed === undefined) break;
    const row = counts.map(() => 0);
    for (const [list, choice] of seed) row[list] = choice;
    for (const [list, count] of counts.entries()) {
      if (row[list] !== 0) continue;
      let most = 0;
      for (let choice = 1; choice <= count; choice += 1) {
        const met = metBy(wanted, row, [list, choice]);
        if (met <= most) continue;
        most = met;
        row[list] = choice;
      }
    }
    for (const [i, a] of row.entries()) {
      for (const [j, b] of row.entries()) if (i < j) wanted.delete(keyOf([i, a], [j, b]));
    }
    rows.push(row);
  }
  return rows;
}

/** A list and one of its choices. */
type Spot = readonly [list: number, choice: number];

const keyOf = ([i, a]: Spot, [j, b]: Spot): string => `${i} ${a} ${j} ${b}`;

/** How many wanted pairs a choice makes with what stands in a row. */
function metBy(wanted: ReadonlyMap<string, unknown>, row: Row, [list, choice]: Spot): number {
  let met = 0;
  for (const [other, stands] of row.entries()) {
    if (other === list || stands === 0) continue;
    const [one, two]: readonly [Spot, Spot] =
      other < list
        ? [
            [other, stands],
            [list, choice],
          ]
        : [
            [list, choice],
            [other, stands],
          ];
    if (wanted.has(keyOf(one, two))) met += 1;
  }
  return met;
}
