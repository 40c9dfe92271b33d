/** A point on the floor or on a face, in: along, across. */
export type Point = readonly [x: number, y: number];

const turn = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

function halfOutline(points: readonly Point[]): Point[] {
  const half: Point[] = [];
  for (const point of points) {
    for (;;) {
      const [before, last] = [half.at(-2), half.at(-1)];
      if (before === undefined || last === undefined || turn(before, last, point) > 0) break;
      half.pop();
    }
    half.push(point);
  }
  return half.slice(0, -1);
}

/**
 * The corners of the string that is drawn tight around some points, counter-clockwise. Points in one
 * line give fewer than three.
 */
export function outlineOf(points: readonly Point[]): readonly Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const outline = [...halfOutline(sorted), ...halfOutline(sorted.toReversed())];
  return outline.length >= 3 ? outline : outline.slice(0, 2);
}

/** Middle of the area inside the tight string around some points; their mean where there is no area. */
export function centreOf(points: readonly Point[]): Point {
  const outline = outlineOf(points);
  const [first] = outline;
  let [twice, x, y] = [0, 0, 0];
  outline.forEach((a, i) => {
    const b = outline[i + 1];
    if (first === undefined || b === undefined) return;
    const part = turn(first, a, b);
    twice += part;
    x += (part * (first[0] + a[0] + b[0])) / 3;
    y += (part * (first[1] + a[1] + b[1])) / 3;
  });
  if (twice > 0) return [x / twice, y / twice];
  const mean = (place: 0 | 1): number =>
    points.reduce((sum, point) => sum + point[place], 0) / Math.max(1, points.length);
  return [mean(0), mean(1)];
}
