import { promisify } from 'node:util';
import { deflateRaw, inflateRaw } from 'node:zlib';
import { type BookDocument, LIMITS, loadText } from '@kerfbook/document';
import type { Club, Write } from '../club.ts';
import { signOf } from '../database/ids.ts';
import { Refused } from '../refused.ts';

const unpack = promisify(inflateRaw);
const pack = promisify(deflateRaw);

/** Bytes of a text of as many letters as a workbook may have. */
const MOST_BYTES = 4 * LIMITS.book;

/** A workbook that was sent, looked at as data and never worked out. */
export interface Sent {
  /** Deflated, as it is kept. */
  readonly bytes: Buffer;
  /** SHA-256 of its text. */
  readonly sign: string;
  readonly document: BookDocument;
}

/**
 * Unpacks and checks a workbook.
 * @param packed deflated (RFC 1951), in base64
 * @throws Refused where it is none, or larger than a workbook may be
 */
export async function readSent(packed: string): Promise<Sent> {
  const sent = Buffer.from(packed, 'base64');
  let text: string;
  try {
    const raw = await unpack(sent, { maxOutputLength: MOST_BYTES });
    text = new TextDecoder('utf-8', { fatal: true }).decode(raw);
  } catch (error) {
    if ((error as { code?: string }).code === 'ERR_BUFFER_TOO_LARGE') {
      throw new Refused('tooLarge', 'The workbook is larger than a workbook may be.');
    }
    throw new Refused('unreadable', 'What was sent is no workbook. Save it anew, then try again.');
  }
  const loaded = loadText(text);
  if (!loaded.ok) throw new Refused('notSo', loaded.says);
  // Of all its words the title alone is kept by itself, where lists show it on one line.
  if (/[\p{Cc}\p{Cs}\u2028\u2029]/u.test(loaded.document.title)) {
    throw new Refused(
      'notSo',
      'The title of the workbook has signs in it that cannot be shown. Type the title anew, then try again.',
    );
  }
  // Packed anew: what stands behind the end of the packed text must not be kept.
  const bytes = (await pack(Buffer.from(text, 'utf8'), { level: 9 })) as Buffer;
  return { bytes, sign: signOf(text), document: loaded.document };
}

/** Keeps bytes once, whoever else has the same; answers the sign they are found by. */
export async function keepBytes({ id: club, now }: Club, t: Write, bytes: Buffer): Promise<string> {
  const sign = signOf(bytes);
  await t
    .insertInto('blob')
    .values({ club, sign, bytes, made: now() })
    .onConflict((same) => same.columns(['club', 'sign']).doNothing())
    .execute();
  return sign;
}

/** Packed bytes as they go over the wire. */
export async function packedText({ id: club, database }: Club, blob: string): Promise<string> {
  const row = await database.read
    .selectFrom('blob')
    .select('bytes')
    .where('club', '=', club)
    .where('sign', '=', blob)
    .executeTakeFirst();
  if (row === undefined) {
    throw new Refused('notThere', 'This state is no longer kept. Look at the list again.');
  }
  return row.bytes.toString('base64');
}

/** The text of a workbook that is kept. */
export async function keptText(club: Club, blob: string): Promise<string> {
  const raw = await unpack(Buffer.from(await packedText(club, blob), 'base64'), {
    maxOutputLength: MOST_BYTES,
  });
  return raw.toString('utf8');
}

/** The tables whose rows rest on bytes. */
const RESTING = ['revision', 'suggestion', 'book_state', 'image'] as const;

/** Takes bytes out that nothing rests on any more. */
export async function letBytesGo(
  { id: club }: Pick<Club, 'id'>,
  t: Write,
  signs: Iterable<string>,
): Promise<void> {
  for (const sign of new Set(signs)) {
    let used = false;
    for (const table of RESTING) {
      // Of the four tables nothing is asked but this one column, which they have in common.
      used ||=
        (await t
          .selectFrom(table as 'revision')
          .select('blob')
          .where('club', '=', club)
          .where('blob', '=', sign)
          .limit(1)
          .executeTakeFirst()) !== undefined;
    }
    if (!used) {
      await t.deleteFrom('blob').where('club', '=', club).where('sign', '=', sign).execute();
    }
  }
}
