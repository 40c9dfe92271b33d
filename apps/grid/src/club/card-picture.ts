import { DRAWING_STYLE, SHADED_STYLE } from '@kerfbook/drawing';
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
    drawn.setAttribute('width', String(wide));
    drawn.setAttribute('height', String(high));
    const image = new Image();
    const text = new XMLSerializer().serializeToString(drawn);
    image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
    try {
      await image.decode();
    } catch {
      return undefined;
    }
    const canvas = document.createElement('canvas');
    canvas.width = wide;
    canvas.height = high;
    const pen = canvas.getContext('2d');
    if (pen === null) return undefined;
    pen.fillStyle = GROUND;
    pen.fillRect(0, 0, wide, high);
    pen.drawImage(image, 0, 0, wide, high);
    const letters = lettersOf(canvas.toDataURL('image/png'));
    if (letters.length * 0.75 <= MOST) return letters;
  }
  return undefined;
}
