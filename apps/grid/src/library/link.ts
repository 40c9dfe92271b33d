import { type BookDocument, loadText } from '@kerfbook/workbook';

/**
 * Letters that a link has at the most, its address with it: longer ones get cut on their way. Browsers take 65,536 at
 * the least (value from memory).
 */
export const LONGEST_LINK = 60_000;
/** Letters that a link is unpacked to at the most: ten times what the longest ones hold. */
const LARGEST_TEXT = 5_000_000;
/** What stands before the workbook in a link. */
const MARK = 'kerfbook';
/** How the workbook is packed in it: as JSON, ZLIB (RFC 1950), base64url (RFC 4648). */
const PACKED = 1;
const LINK = new RegExp(`#${MARK}=(\\d+)\\.([\\w-]*)`);

/** A workbook as a link, or why it cannot be one. */
export type LinkMade =
  | { readonly ok: true; readonly link: string }
  | { readonly ok: false; readonly letters: number; readonly says: string };

/**
 * A link that holds the whole workbook behind its `#`, which no browser sends to a server.
 * @param address of the app that opens it, without a `#`
 */
export async function linkOf(document: BookDocument, address: string): Promise<LinkMade> {
  const text = JSON.stringify(document);
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate'));
  const packed = new Uint8Array(await new Response(stream).arrayBuffer());
  const link = `${address}#${MARK}=${PACKED}.${toLetters(packed)}`;
  const letters = link.length;
  if (letters <= LONGEST_LINK && text.length <= LARGEST_TEXT) return { ok: true, link };
  const says = `As a link this workbook takes ${thousands(letters)} letters; beyond ${thousands(LONGEST_LINK)} links get cut on their way. Send it as a file.`;
  return { ok: false, letters, says };
}

/** What a link holds: nothing of it is on this device yet. */
export type LinkRead =
  | { readonly ok: true; readonly document: BookDocument }
  | {
      readonly ok: false;
      /** `none`: it is no link with a workbook at all. */
      readonly why: 'none' | 'refused';
      readonly says: string;
    };

/** Whether an address brings a workbook along, whole or not. */
export const bringsBook = (address: string): boolean => address.includes(`#${MARK}=`);

/**
 * Reads a link, as it stands in the address or was pasted: line breaks that mail puts in are taken out.
 * Any address may stand before its `#`, since links made on another device bear that one's.
 */
export async function readLink(pasted: string): Promise<LinkRead> {
  const text = pasted.replace(/\s+/g, '');
  const found = LINK.exec(text);
  if (found === null) {
    return {
      ok: false,
      why: 'none',
      says: `There is no workbook in this. A link with a workbook has "#${MARK}=" in it; copy all of it.`,
    };
  }
  const [, version, letters = ''] = found;
  if (Number(version) > PACKED) {
    return refused('A newer Kerfbook made this link. Reload the page to get that one.');
  }
  if (letters.length > LONGEST_LINK) {
    return refused(
      `This link has ${thousands(letters.length)} letters; Kerfbook makes none over ${thousands(LONGEST_LINK)}. Ask for the workbook as a file.`,
    );
  }
  const unpacked = await unpack(letters);
  if (typeof unpacked === 'object') return unpacked;
  const loaded = loadText(unpacked);
  if (loaded.ok) return { ok: true, document: loaded.document };
  return refused(loaded.says);
}

const refused = (says: string) => ({ ok: false, why: 'refused', says }) as const;

const CUT = refused(
  'This link was cut short or changed on its way. Copy all of it, or ask for the workbook as a file.',
);

async function unpack(letters: string): Promise<string | Extract<LinkRead, { ok: false }>> {
  const packed = fromLetters(letters);
  if (packed === undefined) return CUT;
  const reader = new Blob([packed])
    .stream()
    .pipeThrough(new DecompressionStream('deflate'))
    .getReader();
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let text = '';
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return text + decoder.decode();
      text += decoder.decode(value, { stream: true });
      // A few letters can be packed so that they fill any memory.
      if (text.length > LARGEST_TEXT) {
        await reader.cancel();
        return refused(
          `What this link holds is larger than any workbook that Kerfbook makes a link of (${LARGEST_TEXT / 1e6} MB). It is not opened.`,
        );
      }
    }
  } catch {
    return CUT;
  }
}

/** Bytes put into one call: each is an argument of it. */
const AT_ONCE = 8192;

function toLetters(bytes: Uint8Array): string {
  let binary = '';
  for (let at = 0; at < bytes.length; at += AT_ONCE) {
    binary += String.fromCharCode(...bytes.subarray(at, at + AT_ONCE));
  }
  return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

function fromLetters(letters: string): Uint8Array<ArrayBuffer> | undefined {
  try {
    const binary = atob(letters.replaceAll('-', '+').replaceAll('_', '/'));
    return Uint8Array.from(binary, (letter) => letter.charCodeAt(0));
  } catch {
    // A count of letters that no bytes come to.
    return undefined;
  }
}

const thousands = (letters: number): string => letters.toLocaleString('en-US');
