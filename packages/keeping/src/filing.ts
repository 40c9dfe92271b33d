import {
  type Applied,
  type BookDocument,
  type Edit,
  loadText,
  type Refused,
  readJson,
  saveText,
} from '@kerfbook/workbook';
import { addAllBooks, allBooksIn } from './all-books.ts';
import { forAnotherJob } from './another-job.ts';
import { type Base, besideBase } from './bases.ts';
import type { Bookcase } from './bookcase.ts';
import { type Beside, DONE, type Done, type Listing, notDone } from './bookcase-state.ts';
import { entryOf } from './entries.ts';
import { fileNameFor } from './file-name.ts';
import {
  basesOf,
  baseText,
  type Lineage,
  letBasesGo,
  lineageOf,
  madeFrom,
  ownTemplateNow,
  takenFromFile,
  withBase,
} from './lineage.ts';
import { newBookId } from './new-id.ts';
import { isTouched } from './opening.ts';
import { bringUpToDate } from './reading.ts';
import { type BookHead, headOf, isNewer, isOwnTemplate, KEPT, type Origin } from './records.ts';
import { shopsId } from './shop-mark.ts';
import { workingCopyId } from './templates.ts';
import { NEWER, writeTrouble } from './trouble.ts';
import { takenApart, withVersions } from './with-versions.ts';

/** Changes the workbook at hand the way any edit does, so that undo and the screen follow. */
export type ApplyEdit = (edit: Edit) => Applied | Refused;

/** Everything on this device, newest first. */
export async function listBooks(bookcase: Bookcase): Promise<Listing> {
  const { store, templates } = bookcase;
  const [kept, shops] = await Promise.all([store.list(), shopsId(store).catch(() => undefined)]);
  const heads = [...kept, ...onlyInHand(bookcase, kept)].sort((a, b) => b.updated - a.updated);
  const copies = new Map(heads.map((head) => [head.id, head]));
  const shipped = await Promise.all(
    templates.map(async (template) => {
      const copy = copies.get(workingCopyId(template.key));
      const changed = copy !== undefined && (await isChanged(bookcase, copy));
      return changed ? { ...template, changed: copy } : template;
    }),
  );
  // A copy that was changed is the maker's own; one that was not is the template.
  const untouched = new Set(
    shipped.flatMap((row) => ('changed' in row ? [] : [workingCopyId(row.key)])),
  );
  return {
    templates: shipped,
    own: heads.filter((head) => head.deleted === undefined && !untouched.has(head.id)),
    trash: heads.filter((head) => head.deleted !== undefined),
    beside: await besides(bookcase, heads),
    ...(shops === undefined ? {} : { shops }),
  };
}

/** Workbooks that this page holds and the device has no room for. */
function onlyInHand(bookcase: Bookcase, kept: readonly BookHead[]): readonly BookHead[] {
  const ids = new Set(kept.map(({ id }) => id));
  return bookcase.unwritten.filter(({ id }) => !ids.has(id));
}

/** A copy that cannot be read counts as changed: it may hold work. */
async function isChanged(bookcase: Bookcase, { id, revision }: BookHead): Promise<boolean> {
  if (revision !== 0) return true;
  const kept = await bookcase.store.read(id).catch(() => 'unreadable' as const);
  return kept === 'unreadable' || (kept !== undefined && isTouched(kept));
}

/** Read at once for all: with hundreds of workbooks, asking for each would take longer than the list itself. */
async function besides(
  bookcase: Bookcase,
  heads: readonly BookHead[],
): Promise<ReadonlyMap<string, Beside>> {
  const [aside, unopened] = await Promise.all([bookcase.store.keys('aside:'), bookcase.unopened()]);
  return new Map(
    heads.flatMap(({ id }) => {
      const says = unopened.get(id);
      const mine = aside.filter((key) => key.startsWith(`aside:${id}:`));
      if (says === undefined && mine.length === 0) return [];
      return [[id, { ...(says === undefined ? {} : { unopened: says }), aside: mine }] as const];
    }),
  );
}

/**
 * Keeps the workbook at hand as a template of the maker's own as well, and goes on in the one at hand. A template is
 * for the next job: whom the last one was for, its number, days and state stay out of it, terms and
 * letterhead go along.
 * @param name of the template; spaces around it are left out
 */
export async function saveAsOwn(
  bookcase: Bookcase,
  name: string,
): Promise<{ readonly ok: true; readonly id: string } | (Done & { readonly ok: false })> {
  const title = name.trim();
  const trouble = titleProblem(title);
  if (trouble !== undefined) return { ok: false, says: trouble };
  const { book } = bookcase.current;
  const now = book.document();
  const kept = forAnotherJob(now);
  const { lineage, base } = await lineageToSave(bookcase, now);
  const text = saveText({ ...kept, title, lineage });
  const id = newBookId();
  const at = bookcase.now();
  const origin: Origin = { kind: 'own', from: book.title };
  const times = { created: at, updated: at, revision: 0, kept: KEPT };
  const beside = base === undefined ? new Map() : besideBase(id, base);
  try {
    await bookcase.store.put({ id, title, origin, ...times, text }, beside);
    return { ok: true, id };
  } catch (error) {
    return { ok: false, says: `Not saved: ${writeTrouble(error)}` };
  }
}

/** What a workbook that is saved under another name comes from: the template that the one at hand is or came from. */
async function lineageToSave(
  bookcase: Bookcase,
  document: BookDocument,
): Promise<{ readonly lineage: Lineage; readonly base?: Base }> {
  const { id, origin } = bookcase.current;
  if (isOwnTemplate(origin)) {
    return madeFrom(document.title, bookcase.revision, id, saveText(document));
  }
  const lineage = lineageOf(document, origin, bookcase.templates);
  const sign = lineage?.base;
  if (lineage === undefined || sign === undefined) {
    const revision = origin.kind === 'template' ? 1 : Math.max(1, bookcase.revision);
    return { lineage: { template: document.title, revision } };
  }
  const text = await baseText(bookcase, sign);
  return { lineage, ...(text === undefined ? {} : { base: { sign, text } }) };
}

/**
 * Begins a job from a template of the maker's own and shows it: the template stays as it is.
 * @param id of the template
 */
export async function startJob(bookcase: Bookcase, id: string, name: string): Promise<Done> {
  const title = name.trim();
  const trouble = titleProblem(title);
  if (trouble !== undefined) return notDone(trouble);
  const copy = await fileCopy(bookcase, id);
  if (copy === undefined) return notDone('That template is not on this device any more.');
  if (copy.says !== undefined) return notDone(copy.says);
  const loaded = loadText(copy.text);
  if (!loaded.ok) return notDone(loaded.says);
  const kept = forAnotherJob(loaded.document);
  const from = kept.title;
  const now = await ownTemplateNow(bookcase, id);
  const made = now === undefined ? undefined : madeFrom(from, now.revision, id, now.text);
  const lineage = made?.lineage ?? { template: from, revision: 1 };
  const document = { ...kept, title, lineage };
  const origin = { kind: 'own', from, job: true } as const;
  return bookcase.add(saveText(document), title, origin, undefined, made?.base);
}

/** A title that no workbook has yet: itself where it is free, else with the next number behind it. */
export function freeTitle(title: string, taken: readonly string[]): string {
  const known = new Set(taken.map((one) => one.trim().toLowerCase()));
  for (let number = 1; ; number += 1) {
    const next = number === 1 ? title : `${title} ${number}`;
    if (!known.has(next.trim().toLowerCase())) return next;
  }
}

/** Titles of all workbooks here, those that are built in with them. */
export const titlesIn = ({ templates, own }: Listing): readonly string[] =>
  [...templates, ...own].map(({ title }) => title);

/** Gives a workbook another title: an edit like any other, also for one that is not open. */
export async function renameBook(
  bookcase: Bookcase,
  id: string,
  name: string,
  apply: ApplyEdit,
): Promise<Done> {
  const title = name.trim();
  const trouble = titleProblem(title);
  if (trouble !== undefined) return notDone(trouble);
  return editHead(bookcase, id, { do: 'setBook', set: { title } }, { title }, apply);
}

/** Gives a workbook other words to be found by: an edit like any other, also for one that is not open. */
export async function tagBook(
  bookcase: Bookcase,
  id: string,
  tags: readonly string[],
  apply: ApplyEdit,
): Promise<Done> {
  const trouble = tagsProblem(tags);
  if (trouble !== undefined) return notDone(trouble);
  const edit: Edit = { do: 'setBook', set: { tags: tags.length === 0 ? null : [...tags] } };
  return editHead(bookcase, id, edit, {}, apply);
}

/** Carries out an edit of the head; where the workbook is not open, it is written to its log. */
async function editHead(
  bookcase: Bookcase,
  id: string,
  edit: Edit,
  head: { readonly title?: string },
  apply: ApplyEdit,
): Promise<Done> {
  if (id === bookcase.current.id) {
    const result = apply(edit);
    return result.ok ? DONE : notDone(result.says);
  }
  return bookcase.whileHeld(id, async () => {
    const kept = await bookcase.store.read(id);
    if (kept === undefined) return notDone('That workbook is not on this device any more.');
    if (isNewer(kept.record) || kept.log.some(isNewer)) return notDone(NEWER);
    const at = bookcase.now();
    const seq = (kept.log.at(-1)?.seq ?? kept.record.revision) + 1;
    await bookcase.store.append([entryOf(id, seq, edit, at)]);
    await bookcase.store.relabel(id, { ...head, updated: at });
    return DONE;
  });
}

/**
 * A second one of a workbook beside the first, which goes on as it is; nothing else is shown for it.
 * @param name of the second
 */
export async function duplicateBook(bookcase: Bookcase, id: string, name: string): Promise<Done> {
  const title = name.trim();
  const trouble = titleProblem(title);
  if (trouble !== undefined) return notDone(trouble);
  const heads = [...(await bookcase.store.list()), ...bookcase.unwritten];
  const head = heads.find((one) => one.id === id);
  const copy = await fileCopy(bookcase, id);
  if (head === undefined || copy === undefined) {
    return notDone('That workbook is not on this device any more.');
  }
  if (copy.says !== undefined) return notDone(copy.says);
  const loaded = loadText(copy.text);
  if (!loaded.ok) return notDone(loaded.says);
  const now = bookcase.now();
  const next = newBookId();
  const origin: Origin =
    head.origin.kind === 'template' ? { kind: 'own', from: head.title, job: true } : head.origin;
  // The state of a template that both come from is kept as long as one of them is.
  const rests = await bookcase.store.values(`rests:${id}:`);
  // Those of the club are the first one's: the second does not follow.
  const beside = [...rests]
    .filter(([key]) => !key.startsWith(`rests:${id}:club:`))
    .map(([key, value]) => [key.replace(`rests:${id}:`, `rests:${next}:`), value] as const);
  const times = { created: now, updated: now, revision: 0, kept: KEPT };
  const text = saveText({ ...withoutCarried(loaded.document), title });
  try {
    await bookcase.store.put({ id: next, title, origin, ...times, text }, new Map(beside));
    return DONE;
  } catch (error) {
    return notDone(`Not saved: ${writeTrouble(error)}`);
  }
}

/** What stays on this device has the state of its template kept beside it, not in it. */
function withoutCarried(document: BookDocument): BookDocument {
  if (document.lineage?.text === undefined) return document;
  const { text: _carried, ...lineage } = document.lineage;
  return { ...document, lineage };
}

/** Moves a workbook to the trash. The one at hand gives way to the first template. */
export async function deleteBook(bookcase: Bookcase, id: string): Promise<Done> {
  if (id === bookcase.current.id) {
    if (bookcase.current.access === 'read') {
      return notDone('This workbook is open elsewhere. Close it there first.');
    }
    const left = await openAnother(bookcase);
    if (!left.ok) return left;
  }
  return bookcase.whileHeld(id, async () => {
    await bookcase.store.relabel(id, { deleted: bookcase.now() });
    return DONE;
  });
}

/** Shows the first template or, where that cannot be opened, whatever else can be. */
async function openAnother(bookcase: Bookcase): Promise<Done> {
  const own = (await bookcase.store.list()).filter(({ deleted }) => deleted === undefined);
  const ids = [
    ...bookcase.templates.map(({ key }) => workingCopyId(key)),
    ...own.map(({ id }) => id),
  ].filter((id) => id !== bookcase.current.id);
  let done: Done = notDone('There is no other workbook to show. Create a blank one first.');
  for (const id of ids) {
    done = await bookcase.open(id);
    if (done.ok) break;
  }
  return done;
}

/** Takes a workbook out of the trash. */
export function restoreBook(bookcase: Bookcase, id: string): Promise<Done> {
  return bookcase.whileHeld(id, async () => {
    await bookcase.store.relabel(id, { deleted: null });
    return DONE;
  });
}

/** Removes a workbook and all that is kept beside it for good. */
export function destroyBook(bookcase: Bookcase, id: string): Promise<Done> {
  return bookcase.whileHeld(id, async () => {
    const bases = await basesOf(bookcase.store, id);
    await bookcase.store.destroy(id);
    await letBasesGo(bookcase.store, bases);
    return DONE;
  });
}

/** Takes everything in the trash out of this device for good. */
export async function emptyTrash(bookcase: Bookcase): Promise<Done> {
  for (const head of await bookcase.store.list()) {
    if (head.deleted === undefined) continue;
    const done = await destroyBook(bookcase, head.id);
    if (!done.ok) return done;
  }
  return DONE;
}

/** A workbook as a file to be saved elsewhere. */
export interface FileCopy {
  /** What it is called, its ending with it. */
  readonly fileName: string;
  /** The saved text. */
  readonly text: string;
  /** Where the workbook cannot be read here, its saved text goes out as it is. */
  readonly says?: string;
}

/** A workbook as a file: one that is open as it stands, another one with its log. */
export async function fileCopy(bookcase: Bookcase, id: string): Promise<FileCopy | undefined> {
  const here = bookcase.inHand(id);
  if (here !== undefined) {
    const document = await withBase(bookcase, here.book.document(), here.origin);
    return { fileName: fileNameFor(here.book.title), text: saveText(document) };
  }
  const kept = await bookcase.store.read(id);
  if (kept === undefined) return undefined;
  const { title } = headOf(kept.record);
  const fileName = fileNameFor(title);
  const result = bringUpToDate(kept);
  if (result.ok) {
    const { document } = result.brought;
    const { origin } = headOf(kept.record);
    return { fileName, text: saveText(await withBase(bookcase, document, origin)) };
  }
  const says = `"${title}" cannot be read here: the file holds its saved text as it is. ${result.says}`;
  return { fileName, text: String(kept.record.text ?? ''), says };
}

/** The workbook at hand with its earlier states, as one file. */
export async function copyWithVersions(bookcase: Bookcase): Promise<FileCopy> {
  const { versions, current } = bookcase;
  const now = saveText(await withBase(bookcase, current.book.document(), current.origin));
  const kept = [];
  let letters = now.length;
  let left = 0;
  let hurt = 0;
  for (const { at, key, ...head } of await versions.list()) {
    const text = await versions.text(key).catch(() => undefined);
    if (text === undefined || !readJson(text).ok) {
      hurt += 1;
      continue;
    }
    letters += text.length;
    // The newest go first; what was left out once stays so, that no gap is in between.
    if (left > 0 || letters > LARGEST_FILE / BYTES_A_LETTER) left += 1;
    else kept.push({ at, ...head, text });
  }
  if (left > 0) {
    bookcase.notice(
      `The file holds the newest ${kept.length} versions; with ${left} more it would be too large to be opened again.`,
    );
  }
  if (hurt > 0) {
    const many = hurt === 1 ? '1 version' : `${hurt} versions`;
    const are = hurt === 1 ? 'is' : 'are';
    bookcase.notice(`${many} cannot be read on this device and ${are} not in the file.`);
  }
  const text = withVersions(now, kept);
  return { fileName: fileNameFor(`${current.book.title} with versions`), text };
}

/** A template as a file: the maker's changed copy of it, or as it ships where there is none. */
export async function templateCopy(bookcase: Bookcase, key: string): Promise<FileCopy | undefined> {
  const template = bookcase.templates.find((one) => one.key === key);
  if (template === undefined) return undefined;
  const id = workingCopyId(key);
  const kept = bookcase.inHand(id) ?? (await bookcase.store.read(id));
  if (kept !== undefined && ('book' in kept || isTouched(kept))) return fileCopy(bookcase, id);
  return { fileName: fileNameFor(template.title), text: await template.text() };
}

/** What a browser's `File` offers, as far as reading one goes. */
export interface ReadableFile {
  /** With its ending. */
  readonly name: string;
  /** Bytes. */
  readonly size: number;
  /** All of it as UTF-8; rejects where it cannot be read. */
  text(): Promise<string>;
}

const MB = 1024 * 1024;
/**
 * A workbook has at most 20 MB of letters, of up to four bytes each: which fits, its reader counts. With
 * its earlier states it may be longer.
 */
const LARGEST_FILE = 160 * MB;
const BYTES_A_LETTER = 4;

/** Adds a file as a workbook of the maker's own and shows it; the file itself is only read. */
export async function importFile(bookcase: Bookcase, file: ReadableFile): Promise<Done> {
  if (file.size > LARGEST_FILE) {
    const size = Math.ceil(file.size / MB);
    return notDone(
      `${file.name} is ${size} MB; a workbook with its earlier versions is at most ${LARGEST_FILE / MB} MB.`,
    );
  }
  let text: string;
  try {
    text = await file.text();
  } catch {
    return notDone(`${file.name} could not be read. Check that it is still there, then try again.`);
  }
  const all = allBooksIn(text);
  if (all !== undefined) return addAllBooks(bookcase, file.name, all);
  const apart = takenApart(text);
  const loaded = loadText(apart?.text ?? text);
  if (!loaded.ok) return notDone(`${file.name}: ${loaded.says}`);
  const { migration } = loaded;
  const { document, base, says } = await takenFromFile(loaded.document);
  const origin = { kind: 'file', file: file.name } as const;
  const done = await bookcase.add(saveText(document), document.title, origin, 'anyway', base);
  if (done.ok && says !== undefined) bookcase.notice(says);
  if (done.ok && migration?.says !== undefined) bookcase.notice(migration.says);
  if (!done.ok || apart === undefined) return done;
  const { versions } = bookcase;
  try {
    for (const { at, name, text: state } of [...apart.versions].reverse()) {
      await versions.keep(state, name, at);
    }
  } catch (error) {
    bookcase.notice(`Earlier versions in ${file.name} were not kept: ${writeTrouble(error)}`);
  }
  if (apart.lost > 0) {
    const many = apart.lost === 1 ? '1 earlier version' : `${apart.lost} earlier versions`;
    bookcase.notice(
      `${many} in ${file.name} could not be read and ${apart.lost === 1 ? 'was' : 'were'} left out.`,
    );
  }
  return done;
}

/** Adds a workbook that came in a link, once the maker has looked at it, and shows it. */
export function addLinked(bookcase: Bookcase, document: BookDocument): Promise<Done> {
  return bookcase.add(saveText(document), document.title, { kind: 'link' }, 'anyway');
}

export function titleProblem(title: string): string | undefined {
  if (title === '') return 'A workbook needs a name. Type one, then save.';
  if (title.length > 200)
    return `A name is at most 200 characters long; this one has ${title.length}.`;
  return undefined;
}

const MOST_TAGS = 12;
const LONGEST_TAG = 30;

/** Words as a maker types them into one field, a comma between them; each once, whatever its case. */
export function tagsOf(typed: string): readonly string[] {
  const tags = typed.split(',').map((tag) => tag.trim().replaceAll(/\s+/g, ' '));
  return tags.filter(
    (tag, i) =>
      tag !== '' && tags.findIndex((one) => one.toLowerCase() === tag.toLowerCase()) === i,
  );
}

function tagsProblem(tags: readonly string[]): string | undefined {
  if (tags.length > MOST_TAGS) {
    return `A workbook has at most ${MOST_TAGS} tags; these are ${tags.length}. Leave out ${tags.length - MOST_TAGS}.`;
  }
  const long = tags.find((tag) => tag.length > LONGEST_TAG);
  if (long === undefined) return undefined;
  return `A tag is at most ${LONGEST_TAG} characters long; "${long}" has ${long.length}. Put a comma between two tags.`;
}
