import { shelfText } from '@kerfbook/keeping/shelf';
import { type BookDocument, loadText } from '@kerfbook/workbook';
import { askClub, Told } from './here.ts';

/** A revision as it was looked at: nothing of it is on this device for that. */
export interface RevisionRead {
  readonly document: BookDocument;
  readonly text: string;
  readonly sign: string;
}

/** Revisions never change: those that were read are kept as long as the page, the newest few. */
const read = new Map<string, Promise<RevisionRead>>();
const MOST = 8;

/**
 * A revision of a template, checked like any workbook from elsewhere.
 * @throws ClubRefused or Told, with a sentence for the person
 */
export function revisionOf(template: string, number: number): Promise<RevisionRead> {
  const key = `${template} ${number}`;
  const before = read.get(key);
  if (before !== undefined) return before;
  const asked = ask(template, number);
  read.set(key, asked);
  asked.catch(() => read.delete(key));
  const oldest = read.keys().next();
  if (read.size > MOST && oldest.done !== true) read.delete(oldest.value);
  return asked;
}

async function ask(template: string, number: number): Promise<RevisionRead> {
  const { text, sign } = await askClub('revision', { params: { template, number } });
  return unpacked(text, sign);
}

/**
 * A workbook as it came from the club.
 * @param sign what it has to be signed with; left out where the club tells none
 */
export async function unpacked(packed: string, sign?: string): Promise<RevisionRead> {
  const got = await shelfText(packed);
  if (got === undefined || (sign !== undefined && got.sign !== sign)) {
    throw new Told(
      'What came from the shelf was damaged on its way. Try again; if it stays so, tell a keeper of the shelf.',
    );
  }
  const loaded = loadText(got.text);
  if (!loaded.ok) throw new Told(`It is not opened: ${loaded.says}`);
  return { document: loaded.document, ...got };
}
