import type { PartsReading } from '../parts.ts';
import { buildScene } from '../scene.ts';
import { type DetailOptions, jointDetails } from './detail.ts';
import { detailSvg } from './detail-svg.ts';
import { besideOf, detailNote, detailTitle } from './detail-words.ts';

/** A detail of a joint as it is printed. */
export interface DetailPicture {
  /** The row of the joints table, from 0. */
  readonly row: number;
  /** `Leg and long apron: mortise and tenon, 1 : 2`. */
  readonly title: string;
  /** From where it is seen, and what it does not show. */
  readonly note: string;
  /** In the size that its scale gives it. */
  readonly svg: string;
  /** How wide it is on the page, mm. */
  readonly width: number;
  /** How high, mm. */
  readonly height: number;
  /** The same of joints that are made alike, if of other parts or the other way around: their kind and all of their sizes. */
  readonly alike: string;
}

/** A section through the middle of each joint, one for each row of the joints table, in the order of the rows. */
export function detailPictures(
  { parts, joints }: Pick<PartsReading, 'parts' | 'joints'>,
  options: DetailOptions,
): readonly DetailPicture[] {
  if (joints === undefined) return [];
  const { pieces } = buildScene(parts);
  return jointDetails(pieces, joints.work, options).map((detail) => {
    const { place, frame, scale, layout, unplaced } = detail;
    const sizes = [
      ...layout.labels.map(({ text }) => text),
      ...unplaced.map(({ from, to }) => options.format(to - from)),
    ];
    return {
      row: place.joint.at.row,
      title: detailTitle(detail, options.units),
      note: detailNote(detail, options.format),
      svg: detailSvg(detail, options),
      width: (frame.right - frame.left) / scale,
      height: (frame.top - frame.bottom) / scale,
      alike: [place.joint.kind, besideOf(place, options.format), ...sizes.toSorted()].join('; '),
    };
  });
}
