import type { Panel } from '@kerfbook/drawing';
import type { Choice } from './shown.ts';

/** Where the pictures stand: the 3D view, and the panel that each flat one has. */
export interface Arrangement {
  readonly name: 'one' | 'tall' | 'wide' | 'four' | 'stack';
  /** In the order they are read. */
  readonly pictures: readonly Exclude<Choice, 'all'>[];
  /** px; of the 3D view. */
  readonly solid: Panel;
  /** px; of each flat view. */
  readonly flat: Panel;
}

/** Flat views smaller than this, px, write only the sizes over all. */
const FEW_SIZES = 230;

/** Which sizes the flat views have room for. */
export const sizesFor = ({ flat }: Arrangement): 'all' | 'overall' =>
  Math.min(flat.width, flat.height * 1.25) < FEW_SIZES ? 'overall' : 'all';

/** px; with less, nobody could read a flat view, and the 3D view has all of the room. */
const LEAST_FLAT = { width: 110, height: 64 };

/** px; a page narrower than this shows all views under each other, each as wide as it is. */
const TWO_ACROSS = 500;
/** How high each of them is for its width. */
const STACKED = 0.66;

const GAP = 6;
const LEAST = 60;

const panel = (width: number, height: number): Panel => ({
  width: Math.max(LEAST, Math.floor(width)),
  height: Math.max(LEAST, Math.floor(height)),
});

/** Wider than high by this, and the flat views stand beside the 3D view instead of under it. */
const WIDE = 1.5;
/** What the 3D view takes of the room. */
const SHARE = 0.58;

/**
 * Where the pictures stand in a room of so many px. Large, all four: the top over the front, the end
 * beside the front, as views are placed in third-angle projection (ISO 128), and the 3D view in the
 * corner that is left; where a page has no room for two beside each other, one under the other.
 */
export function arrange(choice: Choice, { width, height }: Panel, large: boolean): Arrangement {
  if (choice !== 'all') {
    const whole = panel(width, height);
    return { name: 'one', pictures: [choice], solid: whole, flat: whole };
  }
  if (large && width < TWO_ACROSS) {
    const line = panel(width, width * STACKED);
    return { name: 'stack', pictures: ['3d', 'plan', 'front', 'end'], solid: line, flat: line };
  }
  if (large) {
    const quarter = panel((width - GAP) / 2, (height - GAP) / 2);
    const pictures = ['plan', '3d', 'front', 'end'] as const;
    return { name: 'four', pictures, solid: quarter, flat: quarter };
  }
  const several = beside({ width, height });
  const { flat } = several;
  if (flat.width >= LEAST_FLAT.width && flat.height >= LEAST_FLAT.height) return several;
  const whole = panel(width, height);
  return { name: 'one', pictures: ['3d'], solid: whole, flat: whole };
}

/** The 3D view with the top and the front under it or beside it. */
function beside({ width, height }: Panel): Arrangement {
  const pictures = ['3d', 'plan', 'front'] as const;
  if (width / height >= WIDE) {
    const solid = width * SHARE - GAP;
    return {
      name: 'wide',
      pictures,
      solid: panel(solid, height),
      flat: panel(width - GAP - solid, (height - GAP) / 2),
    };
  }
  const over = height * SHARE - GAP;
  return {
    name: 'tall',
    pictures,
    solid: panel(width, over),
    flat: panel((width - GAP) / 2, height - GAP - over),
  };
}
