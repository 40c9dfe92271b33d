import { DRAWING_STYLE, SHADED_STYLE } from '@kerfbook/drawing';
import { inDots } from '../pictures/in-dots.ts';
import { lettersOf } from './photo.ts';

/** Dots of a picture on the shelf: twice as many as a card shows, for fine screens. */
const WIDEST = 640;
const TALLEST = 480;
/** Bytes of the largest picture. */
const MOST = 250_000;
/** A plain light ground and dark lines, whatever the device's colours are: it is shown on all of them. */
const GROUND = '#fffdf9';
const INK = '#23211d';

/**
 * The picture of a card as a PNG in base64; nothing where it cannot be made, or not small enough.
 * @param svg as `bookCard` draws it
 */
export async function pngOf(svg: string): Promise<string | undefined> {
  const drawn = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  const box = (drawn.getAttribute('viewBox') ?? '').split(/\s+/).map(Number);
  const [, , width = 0, height = 0] = box;
  if (!(width > 0 && height > 0)) return undefined;
  // Alone it has none of the page's rules.
  const style = document.createElementNS('http://www.w3.org/2000/svg', 'style');
  style.textContent = `${DRAWING_STYLE}${SHADED_STYLE}svg { color-scheme: light; color: ${INK}; }`;
  drawn.prepend(style);
  for (let share = Math.min(WIDEST / width, TALLEST / height); share > 0.2; share *= 0.75) {
    const [wide, high] = [Math.round(width * share), Math.round(height * share)];
    const canvas = await inDots(drawn, wide, high, GROUND);
    if (canvas === undefined) return undefined;
    const letters = lettersOf(canvas.toDataURL('image/png'));
    if (letters.length * 0.75 <= MOST) return letters;
  }
  return undefined;
}
