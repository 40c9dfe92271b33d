import type { OpenWorkbook } from '@kerfbook/workbook';
import { PAPER } from './paper.ts';
import type { Sheet } from './sheet.ts';
import type { Segment, View } from './views.ts';

export const VIEW_NAMES: Readonly<Record<View, string>> = {
  plan: 'Top',
  front: 'Front',
  end: 'End',
};

/** What stands under a view. */
export function captionOf(view: View, units: OpenWorkbook['units']): string {
  return `${VIEW_NAMES[view]}, sizes in ${units === 'us' ? 'inches' : 'millimeters'}`;
}

/** The same where there is little room: a size without its unit is none. */
export const shortCaptionOf = (view: View, units: OpenWorkbook['units']): string =>
  `${VIEW_NAMES[view]}, in ${units === 'us' ? 'inches' : 'mm'}`;

/** The floor under a view from the side, a little wider than what stands on it. */
export function floorLine({ projection: { bounds }, unit }: Sheet): Segment {
  const past = PAPER.overrun * unit;
  const y = bounds.bottom;
  return { x1: bounds.left - past, y1: y, x2: bounds.right + past, y2: y };
}
