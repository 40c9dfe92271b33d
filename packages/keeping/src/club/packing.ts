import { MOST_PACKED } from '@kerfbook/protocol';
import { type BookDocument, byIds, LIMITS, loadText, saveText } from '@kerfbook/workbook';
import { signOf } from '../sign.ts';
import { squeezed, unsqueezed } from '../squeeze.ts';
import type { StateAtClub } from './port.ts';

/** A workbook ready to be sent, or a sentence that says why it cannot be. */
export type Packed =
  | { readonly ok: true; readonly text: string; readonly sign: string; readonly packed: string }
  | { readonly ok: false; readonly says: string };

/** Packs a workbook's text for the club. */
export async function packed(text: string): Promise<Packed> {
  const letters = await squeezed(text);
  if (letters === undefined) {
    return {
      ok: false,
      says: 'This browser cannot pack workbooks for the club. Use a newer one; what is here stays on this device.',
    };
  }
  if (letters.length > MOST_PACKED) {
    const [is, most] = [letters.length, MOST_PACKED].map((one) => (one / 2 ** 20).toFixed(1));
    return {
      ok: false,
      says: `Packed, this workbook is ${is} MB; the club takes at most ${most} MB. Take pictures out of it, or split it in two.`,
    };
  }
  return { ok: true, text, sign: signOf(text), packed: letters };
}

/** A state of the club that was read: as it came, and as it is once it was opened. */
export interface ReadState {
  readonly ok: true;
  readonly text: string;
  readonly document: BookDocument;
  /** As this app saves it: an older app may have written it otherwise. */
  readonly saved: string;
}

/** Reads a state of the club and holds it against its sign. */
export async function readState(
  state: Pick<StateAtClub, 'text' | 'sign'>,
): Promise<ReadState | { readonly ok: false; readonly says: string }> {
  const text = await unsqueezed(state.text, MOST_BYTES);
  if (text === undefined || signOf(text) !== state.sign) {
    return {
      ok: false,
      says: 'What the club sent of this workbook is damaged. Nothing here was changed; tell whoever looks after the club.',
    };
  }
  return readText(text);
}

/** Reads a text that is kept here. */
export function readText(text: string): ReadState | { readonly ok: false; readonly says: string } {
  const loaded = loadText(text);
  if (!loaded.ok) {
    return { ok: false, says: `The club's state of it cannot be read here. ${loaded.says}` };
  }
  const document = byIds(loaded.document);
  return { ok: true, text, document, saved: saveText(document) };
}

/** Bytes of a text of as many letters as a workbook may have. */
const MOST_BYTES = 4 * LIMITS.book;
