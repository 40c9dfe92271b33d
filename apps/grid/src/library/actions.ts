import {
  type Applied,
  type BookDocument,
  type Edit,
  loadText,
  type Refused,
  saveText,
} from '@kerfbook/workbook';
import type { Bookcase } from '../storage/bookcase.ts';
import { DONE, type Done, type Listing, notDone } from '../storage/bookcase-state.ts';
import { fileNameFor } from '../storage/file-copy.ts';
import { bringUpToDate } from '../storage/reading.ts';
import type { BookHead } from '../storage/records.ts';
import { workingCopyId } from '../storage/templates.ts';
import { takenApart, withVersions } from '../storage/versions.ts';

/** Changes the workbook at hand the way any edit does, so that undo and the screen follow. */
export type ApplyEdit = (edit: Edit) => Applied | Refused;

/** Everything on this device, newest first. */
export async function listBooks({ store, templates }: Bookcase): Promise<Listing> {
  const heads = [...(await store.list())].sort((a, b) => b.updated - a.updated);
  const kept = heads.filter((head) => head.deleted === undefined);
  const copies = new Map(kept.map((head) => [head.id, head]));
  const isCopy = new Set(templates.map(({ key }) => workingCopyId(key)));
  return {
    templates: templates.map((template) => {
      const copy = copies.get(workingCopyId(template.key));
      return copy === undefined || copy.revision === 0 ? template : { ...template, changed: copy };
    }),
    own: kept.filter((head) => !isCopy.has(head.id)),
    trash: heads.filter((head) => head.deleted !== undefined),
  };
}

/** Saves the workbook at hand under a name of the maker's own, and goes on in that. */
export async function saveAsOwn(bookcase: Bookcase, name: string): Promise<Done> {
  const title = name.trim();
  const trouble = titleProblem(title);
  if (trouble !== undefined) return notDone(trouble);
  const { book, origin } = bookcase.current;
  const from = book.title;
  const revision = origin.kind === 'template' ? 1 : Math.max(1, bookcase.revision);
  const document = { ...book.document(), title, lineage: { template: from, revision } };
  return bookcase.add(saveText(document), title, { kind: 'own', from });
}

/** An empty workbook of the maker's own, one sheet to begin with. */
export async function newBook(
  bookcase: Bookcase,
  name: string,
  units: 'us' | 'metric',
): Promise<Done> {
  const title = name.trim();
  const trouble = titleProblem(title);
  if (trouble !== undefined) return notDone(trouble);
  const ids = (letter: string, count: number) =>
    Array.from({ length: count }, (_, i) => ({ id: `${letter}${i + 1}` }));
  const document: BookDocument = {
    kerfbook: 1,
    title,
    units,
    sheets: [{ id: 's1', name: 'Sheet 1', columns: ids('c', 6), rows: ids('r', 20) }],
    checks: [],
    tables: [],
  };
  return bookcase.add(saveText(document), title, { kind: 'own', from: '' });
}

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
  const edit: Edit = { do: 'setBook', set: { title } };
  if (id === bookcase.current.id) {
    const result = apply(edit);
    return result.ok ? DONE : notDone(result.says);
  }
  return bookcase.whileHeld(id, async () => {
    const kept = await bookcase.store.read(id);
    if (kept === undefined) return notDone('That workbook is not on this device any more.');
    const at = bookcase.now();
    const seq = (kept.log.at(-1)?.seq ?? kept.record.revision) + 1;
    await bookcase.store.append([{ book: id, seq, edit, at }]);
    await bookcase.store.relabel(id, { title, updated: at });
    return DONE;
  });
}

/** Moves a workbook to the trash. The one at hand gives way to the first template. */
export async function deleteBook(bookcase: Bookcase, id: string): Promise<Done> {
  if (id === bookcase.current.id) {
    if (bookcase.current.access === 'read') {
      return notDone('Another tab is writing this workbook. Close it there first.');
    }
    const first = bookcase.templates[0];
    const left = await bookcase.open(workingCopyId(first?.key ?? ''));
    if (!left.ok) return left;
  }
  return bookcase.whileHeld(id, async () => {
    await bookcase.store.relabel(id, { deleted: bookcase.now() });
    return DONE;
  });
}

export function restoreBook(bookcase: Bookcase, id: string): Promise<Done> {
  return bookcase.whileHeld(id, async () => {
    await bookcase.store.relabel(id, { deleted: null });
    return DONE;
  });
}

export function destroyBook(bookcase: Bookcase, id: string): Promise<Done> {
  return bookcase.whileHeld(id, async () => {
    await bookcase.store.destroy(id);
    return DONE;
  });
}

export interface FileCopy {
  readonly fileName: string;
  readonly text: string;
  /** Where the workbook cannot be read here, its saved text goes out as it is. */
  readonly says?: string;
}

/** A workbook as a file: the one at hand as it stands, another one with its log. */
export async function fileCopy(bookcase: Bookcase, id: string): Promise<FileCopy | undefined> {
  const { current } = bookcase;
  if (id === current.id) {
    return { fileName: fileNameFor(current.book.title), text: bookcase.textOfCurrent() };
  }
  const kept = await bookcase.store.read(id);
  if (kept === undefined) return undefined;
  const fileName = fileNameFor(kept.record.title);
  const result = bringUpToDate(kept);
  if (!result.ok) return { fileName, text: kept.record.text, says: result.says };
  return { fileName, text: saveText(result.brought.document) };
}

/** The workbook at hand with its earlier states, as one file. */
export async function copyWithVersions(bookcase: Bookcase): Promise<FileCopy> {
  const { versions, current } = bookcase;
  const now = bookcase.textOfCurrent();
  const kept = [];
  let letters = now.length;
  let left = 0;
  for (const { at, key, ...head } of await versions.list()) {
    const text = await versions.text(key);
    if (text === undefined) continue;
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
  const text = withVersions(now, kept);
  return { fileName: fileNameFor(`${current.book.title} with versions`), text };
}

/** A template as it ships, as a file. */
export async function templateCopy(bookcase: Bookcase, key: string): Promise<FileCopy | undefined> {
  const template = bookcase.templates.find((one) => one.key === key);
  return template && { fileName: fileNameFor(template.title), text: await template.text() };
}

/** What a browser's `File` offers, as far as reading one goes. */
export interface ReadableFile {
  readonly name: string;
  readonly size: number;
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
  const apart = takenApart(text);
  const loaded = loadText(apart?.text ?? text);
  if (!loaded.ok) return notDone(`${file.name}: ${loaded.says}`);
  const { document } = loaded;
  const origin = { kind: 'file', file: file.name } as const;
  const done = await bookcase.add(saveText(document), document.title, origin);
  if (!done.ok || apart === undefined) return done;
  const { versions } = bookcase;
  for (const { at, name, text: state } of [...apart.versions].reverse()) {
    await versions.keep(state, name, at);
  }
  if (apart.lost > 0) {
    const many = apart.lost === 1 ? '1 earlier version' : `${apart.lost} earlier versions`;
    bookcase.notice(
      `${many} in ${file.name} could not be read and ${apart.lost === 1 ? 'was' : 'were'} left out.`,
    );
  }
  return done;
}

/** Where a workbook came from, in words. */
export function originSentence(origin: BookHead['origin'], templateTitle?: string): string {
  switch (origin.kind) {
    case 'template':
      return templateTitle === undefined
        ? 'From a template that ships'
        : `From the template "${templateTitle}"`;
    case 'own':
      return origin.from === '' ? 'Yours, begun empty' : `Yours, made from "${origin.from}"`;
    case 'file':
      return `From the file ${origin.file}`;
  }
}

function titleProblem(title: string): string | undefined {
  if (title === '') return 'A workbook needs a name. Type one, then save.';
  if (title.length > 200)
    return `A name is at most 200 characters long; this one has ${title.length}.`;
  return undefined;
}
