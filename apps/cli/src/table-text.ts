/** Rows of texts as lines of a terminal: columns as wide as their widest text, numbers at the right. */
export function tableText(rows: readonly (readonly string[])[]): string[] {
  const columns = Math.max(0, ...rows.map((row) => row.length));
  const body = rows.slice(1);
  const isNumber = (text: string): boolean => /^[\d$€£¥.,/ '"-]*$/.test(text);
  const shapes = Array.from({ length: columns }, (_, i) => ({
    width: Math.max(...rows.map((row) => row[i]?.length ?? 0)),
    right: body.length > 0 && body.every((row) => isNumber(row[i] ?? '')),
  }));
  return rows.map((row) =>
    shapes
      .map(({ width, right }, i) =>
        right ? (row[i] ?? '').padStart(width) : (row[i] ?? '').padEnd(width),
      )
      .join('  ')
      .trimEnd(),
  );
}
