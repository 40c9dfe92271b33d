import { LIMITS } from '@kerfbook/workbook';
import { fitted } from '../library/logo.ts';

/** A photograph stands in a plan no larger than this, in dots of its longer side. */
export const LONGEST = 1_280;
/** From the best that is worth its letters down to what still shows a joint. */
const QUALITIES = [0.85, 0.75, 0.65, 0.5];
/** Smaller than this a photograph shows nothing of a step. */
const LEAST = 320;

type Made =
  | { readonly ok: true; readonly data: string }
  | { readonly ok: false; readonly says: string };

/**
 * A photograph as it is kept in a workbook: drawn anew by this browser and written as a JPEG, so that neither where nor
 * when it was taken goes along; with less quality, then fewer dots, until it fits.
 */
export async function photoOf(file: Blob, most: number = LIMITS.photo): Promise<Made> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file);
  } catch {
    return {
      ok: false,
      says: 'This file is no picture that can be read. Choose a JPEG, PNG or WebP file.',
    };
  }
  try {
    for (let longest = LONGEST; longest >= LEAST; longest = Math.round(longest * 0.75)) {
      const size = fitted(picture, [longest, longest]);
      const canvas = document.createElement('canvas');
      Object.assign(canvas, size);
      const pen = canvas.getContext('2d');
      if (pen === null) break;
      // A JPEG has no clear dots: what is clear becomes white, not black.
      pen.fillStyle = '#fff';
      pen.fillRect(0, 0, size.width, size.height);
      pen.drawImage(picture, 0, 0, size.width, size.height);
      for (const quality of QUALITIES) {
        const data = canvas.toDataURL('image/jpeg', quality);
        if (data.startsWith('data:image/jpeg;base64,') && data.length <= most) {
          return { ok: true, data };
        }
      }
    }
  } finally {
    picture.close();
  }
  return { ok: false, says: 'This photograph cannot be made small enough. Choose another one.' };
}

/** A name for a photograph, after its file's: small letters, digits and hyphens, and none that is taken. */
export function photoName(fileName: string, taken: readonly string[]): string {
  const plain = fileName
    .replace(/\.[^.]*$/, '')
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 30)
    .replace(/-+$/, '');
  const first = plain === '' ? 'photograph' : plain;
  let name = first;
  for (let i = 2; taken.includes(name); i += 1) name = `${first}-${i}`;
  return name;
}
