import type { JointDetail } from '../details/detail.ts';
import { PAPER } from '../paper.ts';
import type { ParallelView } from '../parallel.ts';
import type { Sheet } from '../sheet.ts';
import { DIRECTIONS, type Rectangle } from '../views.ts';

/** A picture that is not square on, under the name it is to carry. */
export interface Picture {
  /** What is shown, as its caption says. */
  readonly name: string;
  /** The projection that is drawn, mm at full size. */
  readonly view: ParallelView;
}

/** How far something is moved from where its own numbers put it, mm. */
export interface Moved<T> {
  readonly what: T;
  readonly dx: number;
  readonly dy: number;
}

export interface Arrangement {
  readonly sheets: readonly Moved<Sheet>[];
  readonly pictures: readonly Moved<Picture>[];
  readonly details: readonly Moved<JointDetail>[];
  /** Around all frames, mm. */
  readonly frame: Rectangle;
}

/**
 * Views side by side with none over another: views that share the axis across stand one above the
 * other in line, the first asked for on top; further right come those with another axis, then the
 * pictures, and last the joints cut open. The first column keeps the furniture's own coordinates across.
 */
export function arrange(
  sheets: readonly Sheet[],
  pictures: readonly Picture[],
  details: readonly JointDetail[],
  unit: number,
): Arrangement {
  const columns = new Map<string, Sheet[]>();
  for (const sheet of sheets) {
    const axis = DIRECTIONS[sheet.projection.view].across;
    columns.set(axis, [sheet, ...(columns.get(axis) ?? [])]);
  }
  const movedSheets: Moved<Sheet>[] = [];
  const movedPictures: Moved<Picture>[] = [];
  const frames: Rectangle[] = [];
  let right: number | undefined;
  const startAt = (left: number): number => (right === undefined ? 0 : right - left);
  for (const column of columns.values()) {
    const dx = startAt(Math.min(...column.map(({ frame }) => frame.left)));
    let top: number | undefined;
    for (const sheet of column) {
      const dy = top === undefined ? 0 : top - sheet.frame.bottom;
      movedSheets.push({ what: sheet, dx, dy });
      frames.push(shifted(sheet.frame, dx, dy));
      top = sheet.frame.top + dy;
    }
    right = Math.max(...column.map(({ frame }) => frame.right)) + dx;
  }
  for (const picture of pictures) {
    const frame = pictureFrame(picture, unit);
    const dx = startAt(frame.left);
    movedPictures.push({ what: picture, dx, dy: 0 });
    frames.push(shifted(frame, dx, 0));
    right = frame.right + dx;
  }
  const movedDetails: Moved<JointDetail>[] = [];
  for (const detail of details) {
    const frame = detailFrame(detail);
    const [dx, dy] = [startAt(frame.left), -frame.bottom];
    movedDetails.push({ what: detail, dx, dy });
    frames.push(shifted(frame, dx, dy));
    right = frame.right + dx;
  }
  return {
    sheets: movedSheets,
    pictures: movedPictures,
    details: movedDetails,
    frame: aroundAll(frames),
  };
}

/** A picture with room around it and a row for its caption. */
export function pictureFrame({ view: { bounds } }: Picture, unit: number): Rectangle {
  const edge = PAPER.first * unit;
  return {
    left: bounds.left - edge,
    right: bounds.right + edge,
    bottom: bounds.bottom - (PAPER.foot + PAPER.edge) * unit,
    top: bounds.top + edge,
  };
}

/** A joint cut open with a row for its caption. */
export const detailFrame = ({ frame, unit }: JointDetail): Rectangle => ({
  ...frame,
  bottom: frame.bottom - (PAPER.foot + PAPER.edge) * unit,
});

const shifted = ({ left, right, bottom, top }: Rectangle, dx: number, dy: number): Rectangle => ({
  left: left + dx,
  right: right + dx,
  bottom: bottom + dy,
  top: top + dy,
});

const aroundAll = (frames: readonly Rectangle[]): Rectangle => ({
  left: Math.min(...frames.map(({ left }) => left)),
  right: Math.max(...frames.map(({ right }) => right)),
  bottom: Math.min(...frames.map(({ bottom }) => bottom)),
  top: Math.max(...frames.map(({ top }) => top)),
});
