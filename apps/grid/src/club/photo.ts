import { fitted } from '../library/logo.ts';
import { Told } from './here.ts';

/** A photograph goes to the club no larger than this, in dots of its longer side. */
const LONGEST = 2_000;
/** Letters of it in base64 that the club takes (`tellBuilt`), a little less. */
const MOST = 10 * 1024 * 1024;

/**
 * A photograph as it is sent: made smaller and as a JPEG by this browser, so that neither where nor when it was taken
 * goes along.
 * @throws Told where it is no picture
 */
export async function photoOf(file: Blob): Promise<string> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file);
  } catch {
    throw new Told('This file is no picture that can be read. Choose a JPEG, PNG or WebP file.');
  }
  try {
    const size = fitted(picture, [LONGEST, LONGEST]);
    const canvas = document.createElement('canvas');
    Object.assign(canvas, size);
    const pen = canvas.getContext('2d');
    if (pen === null)
      throw new Told('This browser cannot make the photo smaller. Use another one.');
    // A JPEG has no clear dots: what is clear becomes white, not black.
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, size.width, size.height);
    pen.drawImage(picture, 0, 0, size.width, size.height);
    for (const quality of [0.85, 0.7, 0.5]) {
      const letters = lettersOf(canvas.toDataURL('image/jpeg', quality));
      if (letters.length <= MOST) return letters;
    }
  } finally {
    picture.close();
  }
  throw new Told('This photo cannot be made small enough. Choose another one.');
}

/** What stands behind the comma of a data URL in base64. */
export const lettersOf = (address: string): string => address.slice(address.indexOf(',') + 1);
