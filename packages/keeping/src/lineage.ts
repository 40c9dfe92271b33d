import { type BookDocument, LIMITS, loadText, saveText } from '@kerfbook/workbook';
import { type Base, baseKey, besideBase } from './bases.ts';
import type { BookStore } from './book-store.ts';
import type { Bookcase } from './bookcase.ts';
import { textOf } from './opening.ts';
import { bringUpToDate } from './reading.ts';
import { isOwnTemplate, type Origin } from './records.ts';
import { shelfId } from './shelf-port.ts';
import { signOf } from './sign.ts';
import { squeezed, unsqueezed } from './squeeze.ts';
import type { ShippedTemplate } from './templates.ts';

/** The template and the state of it that a workbook came from. */
export type Lineage = NonNullable<BookDocument['lineage']>;

/** What a workbook says itself; of a working copy what is known of it. */
export function lineageOf(
  document: BookDocument,
  origin: Origin,
  templates: readonly ShippedTemplate[],
): Lineage | undefined {
  if (document.lineage !== undefined || origin.kind !== 'template') return document.lineage;
  const { template: key, state } = origin;
  const title = templates.find((one) => one.key === key)?.title;
  if (state === undefined || title === undefined) return undefined;
  return { template: title, revision: state.revision, key, base: state.sign };
}

/** The state with a sign, from wherever this device has it; nothing where it has not. */
export async function baseText(bookcase: Bookcase, sign: string): Promise<string | undefined> {
  const kept = await bookcase.store.get(baseKey(sign)).catch(() => undefined);
  if (typeof kept === 'string' && signOf(kept) === sign) return kept;
  const template = bookcase.templates.find(({ state }) => state?.sign === sign);
  const text = await template?.text().catch(() => undefined);
  return text !== undefined && signOf(text) === sign ? text : undefined;
}

/** What one of the maker's own templates is now, with the number of its last edit. */
export async function ownTemplateNow(
  bookcase: Bookcase,
  id: string,
): Promise<
  { readonly title: string; readonly text: string; readonly revision: number } | undefined
> {
  const here = bookcase.inHand(id);
  if (here !== undefined && isOwnTemplate(here.origin)) {
    const revision = id === bookcase.current.id ? bookcase.revision : undefined;
    const head = bookcase.unwritten.find((one) => one.id === id);
    return {
      title: here.book.title,
      text: textOf(here.book),
      revision: revision ?? head?.revision ?? 0,
    };
  }
  const kept = await bookcase.store.read(id);
  if (kept === undefined || kept.record.deleted !== undefined) return undefined;
  if (!isOwnTemplate(kept.record.origin)) return undefined;
  const result = bringUpToDate(kept);
  if (!result.ok) return undefined;
  const { document, revision } = result.brought;
  return { title: document.title, text: saveText(document), revision };
}

/** A workbook as a file elsewhere needs it: with the state it came from, where only this device has that. */
export async function withBase(
  bookcase: Bookcase,
  document: BookDocument,
  origin: Origin,
): Promise<BookDocument> {
  const lineage = lineageOf(document, origin, bookcase.templates);
  if (lineage === undefined) return document;
  const { text: _before, ...rest } = lineage;
  const isBuiltIn = bookcase.templates.some(({ state }) => state?.sign === rest.base);
  const base =
    rest.base === undefined || isBuiltIn ? undefined : await baseText(bookcase, rest.base);
  return { ...document, lineage: await carrying(rest, base) };
}

/** What a workbook says that it came from, with that state itself, where there is one and it is not too long. */
export async function carrying(lineage: Lineage, base: string | undefined): Promise<Lineage> {
  const text = base === undefined ? undefined : await squeezed(base).catch(() => undefined);
  const fits = text !== undefined && text.length <= LIMITS.carried;
  return { ...lineage, ...(fits ? { text } : {}) };
}

/** A workbook from a file, and the state it brought along: each is kept by itself. */
export async function takenFromFile(
  document: BookDocument,
): Promise<{ readonly document: BookDocument; readonly base?: Base; readonly says?: string }> {
  const { lineage } = document;
  if (lineage?.text === undefined) return { document };
  const { text: carried, ...rest } = lineage;
  const without = { ...document, lineage: rest };
  const sign = rest.base;
  if (sign === undefined) return { document: without };
  const text = await unsqueezed(carried, MOST_BYTES);
  if (text === undefined || signOf(text) !== sign || !loadText(text).ok) {
    return {
      document: without,
      says: `The file says which state of "${rest.template}" the workbook was made from, but what it holds of that is damaged. The workbook itself is whole.`,
    };
  }
  return { document: without, base: { sign, text } };
}

/** Bytes of a text of as many letters as a workbook may have. */
export const MOST_BYTES = 4 * LIMITS.book;

/** What a workbook that is made of a template says of it, and what is kept beside it. */
export function madeFrom(
  template: string,
  revision: number,
  key: string,
  text: string,
): { readonly lineage: Lineage; readonly base: Base } {
  const sign = signOf(text);
  return {
    lineage: { template, revision: Math.max(1, revision), key, base: sign },
    base: { sign, text },
  };
}

/** Takes out states that no workbook rests on any more, of those that one rested on that is gone. */
export async function letBasesGo(store: BookStore, signs: readonly string[]): Promise<void> {
  if (signs.length === 0) return;
  const rests = await store.keys('rests:');
  const gone = signs.filter((sign) => !rests.some((key) => key.endsWith(`:${sign}`)));
  if (gone.length > 0) await store.setAll(new Map(gone.map((sign) => [baseKey(sign), undefined])));
}

/** The signs of the states that a workbook rests on, those that the club has of it with them. */
export async function basesOf(store: BookStore, id: string): Promise<readonly string[]> {
  return (await store.keys(`rests:${id}:`)).map((key) => key.slice(key.lastIndexOf(':') + 1));
}

/** What is new in the template that a workbook came from. */
export type News =
  /** Nothing, with the reason where one asks. */
  | {
      readonly kind: 'none';
      readonly says: string;
      /** The template, where it is here and the two can be compared. */
      readonly template?: TemplateHere;
    }
  | {
      readonly kind: 'newer';
      readonly template: TemplateHere;
      /** What the template is called now. */
      readonly title: string;
      /** What the workbook and the template had in common. */
      readonly base: BookDocument;
      /** The template as it is now. */
      readonly now: BookDocument;
      /** What the workbook says of the template once it has what is new. */
      readonly lineage: Lineage;
      /** To be kept beside the workbook then. */
      readonly state: Base;
    };

/** A template of this device or of the club's shelf, as it is looked for again. */
export interface TemplateHere {
  /** One of the maker's own, or one that is built in. */
  readonly of: 'own' | 'template' | 'shelf';
  /** Its id, or its key. */
  readonly key: string;
  /** What it is called now. */
  readonly title: string;
}

const none = (says: string, template?: TemplateHere): News => ({
  kind: 'none',
  says,
  ...(template === undefined ? {} : { template }),
});

/** Looks whether the template that the workbook at hand came from has changed since. */
export async function newsOf(bookcase: Bookcase): Promise<News> {
  const { book, origin, id } = bookcase.current;
  const lineage = lineageOf(book.document(), origin, bookcase.templates);
  if (lineage === undefined) return none('This workbook was not made from a template.');
  const { template, key, base: sign, revision } = lineage;
  if (key !== undefined && key === id) return none('This workbook is the template itself.');
  const shipped = bookcase.templates.find((one) =>
    key === undefined ? one.title === template : one.key === key,
  );
  if (key === undefined || sign === undefined) {
    return none(
      `This workbook was made from "${template}" before Kerfbook kept which state of it that was. Compare the two instead.`,
      shipped === undefined
        ? undefined
        : { of: 'template', key: shipped.key, title: shipped.title },
    );
  }
  const onShelf = shelfId(key) !== undefined;
  const now = await templateNow(bookcase, key);
  if (now === undefined) {
    return none(
      onShelf
        ? `This workbook was made from "${template}" on the shelf of a club. It cannot be reached from here now, or the template is not on it any more.`
        : `The template "${template}" that this workbook was made from is not on this device.`,
    );
  }
  const same: TemplateHere = {
    of: onShelf ? 'shelf' : shipped === undefined ? 'own' : 'template',
    key,
    title: now.title,
  };
  if (now.sign === sign) return none(`Nothing has changed in "${now.title}" since.`);
  if (now.revision < revision) {
    return none(
      `This workbook was made from revision ${revision} of "${now.title}", and the one here is older: revision ${now.revision}.`,
      same,
    );
  }
  const text =
    (await baseText(bookcase, sign)) ??
    (await now.earlier?.(revision, sign).catch(() => undefined));
  if (text === undefined) {
    return none(
      `What "${template}" was when this workbook was made from it is not on this device. Compare the two instead.`,
      same,
    );
  }
  const later = await now.text().catch(() => undefined);
  if (later === undefined || signOf(later) !== now.sign) {
    return none(`"${now.title}" as it is now did not load. Check your connection, then try again.`);
  }
  const [was, is] = [loadText(text), loadText(later)];
  if (!was.ok) return none(`What "${template}" was then cannot be read: ${was.says}`, same);
  if (!is.ok) return none(`"${now.title}" cannot be read: ${is.says}`);
  return {
    kind: 'newer',
    template: same,
    title: now.title,
    base: was.document,
    now: is.document,
    lineage: {
      template: now.title,
      revision: Math.max(1, now.revision),
      key,
      base: now.sign,
    },
    state: { sign: now.sign, text: later },
  };
}

/** What a template is now; its text is read where it is asked for. */
async function templateNow(
  bookcase: Bookcase,
  key: string,
): Promise<
  | {
      readonly title: string;
      readonly revision: number;
      readonly sign: string;
      readonly text: () => Promise<string>;
      /** The text of an earlier state, where the template itself has it; nothing where that has another sign. */
      readonly earlier?: (revision: number, sign: string) => Promise<string | undefined>;
    }
  | undefined
> {
  const id = shelfId(key);
  if (id !== undefined) {
    // Without the club nothing is known of it, and nothing is told.
    const there = await bookcase.shelf?.now(id).catch(() => undefined);
    if (there === undefined) return undefined;
    const earlier = async (revision: number, sign: string): Promise<string | undefined> => {
      const text = await there.text(revision);
      return signOf(text) === sign ? text : undefined;
    };
    return { ...there, text: () => there.text(), earlier };
  }
  const shipped = bookcase.templates.find((one) => one.key === key);
  if (shipped === undefined) {
    const own = await ownTemplateNow(bookcase, key).catch(() => undefined);
    return own === undefined
      ? undefined
      : { ...own, sign: signOf(own.text), text: async () => own.text };
  }
  const { title, state, text } = shipped;
  return state === undefined ? undefined : { title, ...state, text };
}

/** Keeps the later state beside the workbook that rests on it from now on. */
export async function keepBase(bookcase: Bookcase, state: Base): Promise<void> {
  await bookcase.store.setAll(besideBase(bookcase.current.id, state));
}

const dismissKey = (id: string): string => `news:${id}`;

/** Whether the maker put the notice about this state away. */
export async function isDismissed(bookcase: Bookcase, sign: string): Promise<boolean> {
  return (
    (await bookcase.store.get(dismissKey(bookcase.current.id)).catch(() => undefined)) === sign
  );
}

/** Puts the notice about this state away: the next state is told of again. */
export async function dismissNews(bookcase: Bookcase, sign: string): Promise<void> {
  await bookcase.store.set(dismissKey(bookcase.current.id), sign);
}
