import { LIMITS } from '@kerfbook/workbook';

/** A logo is drawn no larger than this, in dots: about an inch and a half at 300 to the inch. */
const WIDEST = 480;
const HIGHEST = 240;
/** Smaller than this nothing of it is made out. */
const LEAST = 24;

/** Width and height that go into a field, whole dots, the shape kept; never larger than it is. */
export function fitted(
  { width, height }: { readonly width: number; readonly height: number },
  [widest, highest]: readonly [number, number],
): { readonly width: number; readonly height: number } {
  const share = Math.min(1, widest / width, highest / height);
  const dots = (size: number): number => Math.max(1, Math.round(size * share));
  return { width: dots(width), height: dots(height) };
}

/**
 * A picture as it stands in a workbook: made as small as it may be there. It goes along with every copy of the workbook,
 * so that large ones are drawn with fewer dots until they fit.
 */
export async function logoOf(
  file: Blob,
): Promise<
  { readonly ok: true; readonly logo: string } | { readonly ok: false; readonly says: string }
> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file);
  } catch {
    return {
      ok: false,
      says: 'This file is no picture that can be read. Choose a PNG or JPEG file.',
    };
  }
  try {
    for (let share = 1; share * HIGHEST >= LEAST; share *= 0.75) {
      const size = fitted(picture, [WIDEST * share, HIGHEST * share]);
      const canvas = document.createElement('canvas');
      Object.assign(canvas, size);
      canvas.getContext('2d')?.drawImage(picture, 0, 0, size.width, size.height);
      const logo = canvas.toDataURL('image/png');
      if (logo.length <= LIMITS.logo) return { ok: true, logo };
    }
  } finally {
    picture.close();
  }
  return { ok: false, says: 'This picture cannot be made small enough. Choose a simpler one.' };
}
