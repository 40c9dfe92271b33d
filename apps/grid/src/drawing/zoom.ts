/** What of a picture is in sight: how many times as large, and from where, as shares of all of it. */
export interface Zoom {
  readonly times: number;
  readonly x: number;
  readonly y: number;
}

export const FIT: Zoom = { times: 1, x: 0, y: 0 };

const MOST = 12;
export const STEP = 1.25;

/** Zoomed about a spot that stays where it is; shares of what is in sight. */
export function zoomed({ times, x, y }: Zoom, by: number, at = { x: 0.5, y: 0.5 }): Zoom {
  const next = Math.min(MOST, Math.max(1, times * by));
  return inside({
    times: next,
    x: x + (1 / times - 1 / next) * at.x,
    y: y + (1 / times - 1 / next) * at.y,
  });
}

/** Moved by shares of what is in sight. */
export function moved({ times, x, y }: Zoom, across: number, down: number): Zoom {
  return inside({ times, x: x - across / times, y: y - down / times });
}

/** The picture never leaves its frame: what is out of sight can always be pulled back. */
function inside({ times, x, y }: Zoom): Zoom {
  const most = 1 - 1 / times;
  const within = (value: number): number => Math.min(most, Math.max(0, value));
  return { times, x: within(x), y: within(y) };
}

/** The viewBox that shows it. */
export function viewBoxOf(svg: string, { times, x, y }: Zoom): string {
  const [left = 0, top = 0, width = 1, height = 1] = (/viewBox="([^"]+)"/.exec(svg)?.[1] ?? '')
    .split(' ')
    .map(Number);
  return [left + x * width, top + y * height, width / times, height / times].join(' ');
}
