import { Id } from '@kerfbook/protocol';
import sharp from 'sharp';
import type { Club, Write } from '../club.ts';
import { newId } from '../database/ids.ts';
import { notThere, Refused } from '../refused.ts';
import { keepBytes, letBytesGo } from './documents.ts';

/** Pixels that are read of an image: more is a way to fill memory. */
const MOST_PIXELS = 40_000_000;
/** The longer side as it is kept, by what it is. */
const LONGEST = { picture: 640, photo: 1_600 } as const;
/** The kinds of files that are read, by their first bytes. */
const READ = new Set(['jpeg', 'png', 'webp']);

// A club's machine serves pages meanwhile, and what was decoded is not asked for again.
sharp.concurrency(1);
sharp.cache(false);

/** Pixels as they are kept: drawn anew, so that nothing of the file remains but what can be seen. */
export interface Pixels {
  readonly bytes: Buffer;
  readonly type: 'image/webp' | 'image/jpeg';
  readonly width: number;
  readonly height: number;
}

/**
 * Makes a new image of the pixels of one that was sent: no place, no time, no camera, no words in it.
 * @param base64 a JPEG, PNG or WebP
 * @throws Refused where it is none of them, damaged, or too large
 */
export async function redrawn(base64: string, kind: keyof typeof LONGEST): Promise<Pixels> {
  const file = Buffer.from(base64, 'base64');
  try {
    const image = sharp(file, { limitInputPixels: MOST_PIXELS, failOn: 'error', pages: 1 });
    const { format } = await image.metadata();
    if (!READ.has(format)) throw new Error(`a ${format}`);
    // Turned as the camera was held, before what says so is left behind.
    const drawn = image.rotate().resize({
      width: LONGEST[kind],
      height: LONGEST[kind],
      fit: 'inside',
      withoutEnlargement: true,
    });
    const isPhoto = kind === 'photo';
    const { data, info } = await (isPhoto
      ? drawn.flatten({ background: '#ffffff' }).jpeg({ quality: 82 })
      : drawn.webp({ quality: 85 })
    ).toBuffer({ resolveWithObject: true });
    return {
      bytes: data,
      type: isPhoto ? 'image/jpeg' : 'image/webp',
      width: info.width,
      height: info.height,
    };
  } catch {
    throw new Refused(
      'notSo',
      'The image cannot be read. Send a whole JPEG, PNG or WebP of at most 40 million pixels.',
    );
  }
}

/** Keeps an image under an id that nobody can guess. */
export async function keepImage(
  club: Club,
  t: Write,
  owner: string,
  kind: keyof typeof LONGEST,
  pixels: Pixels,
): Promise<string> {
  const id = newId();
  const blob = await keepBytes(club, t, pixels.bytes);
  await t
    .insertInto('image')
    .values({
      club: club.id,
      id,
      kind,
      owner,
      type: pixels.type,
      width: pixels.width,
      height: pixels.height,
      blob,
      made: club.now(),
    })
    .execute();
  return id;
}

/** Takes an image out. */
export async function letImageGo(club: Club, t: Write, id: string | null): Promise<void> {
  if (id === null) return;
  const row = await t
    .selectFrom('image')
    .select('blob')
    .where('club', '=', club.id)
    .where('id', '=', id)
    .executeTakeFirst();
  if (row === undefined) return;
  await t.deleteFrom('image').where('club', '=', club.id).where('id', '=', id).execute();
  await letBytesGo(club, t, [row.blob]);
}

/** An image as a file. */
export async function imageFile(
  { id: club, database }: Club,
  id: string,
): Promise<{ readonly bytes: Buffer; readonly type: string }> {
  // No database takes every text that an address can hold.
  if (!Id.safeParse(id).success) throw notThere('This picture');
  const row = await database.read
    .selectFrom('image')
    .innerJoin('blob', (on) =>
      on.onRef('blob.club', '=', 'image.club').onRef('blob.sign', '=', 'image.blob'),
    )
    .select(['image.type', 'blob.bytes'])
    .where('image.club', '=', club)
    .where('image.id', '=', id)
    .executeTakeFirst();
  if (row === undefined) throw notThere('This picture');
  return row;
}
