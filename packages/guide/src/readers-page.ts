import type { BookDocument } from '@kerfbook/workbook';
import { notCarried, ReaderBook } from '@kerfbook/workbook/reader-book';
import { escaped, Html, html, type Put } from './page/html.ts';
import { makingOf } from './page/making.ts';
import { PROGRAM_SOURCE, programNote } from './page/program.ts';
import { sectionsOf } from './page/sections.ts';
import { GUIDE_STYLES } from './page/styles.ts';
import { PAGE_IDS, type PageData } from './readers/page-data.ts';
import type { ReadersWord } from './readers/reader-words.ts';
import { READERS_STYLES } from './readers/readers-styles.ts';
import { bookForReaders } from './readers-book.ts';
import { readTranslation } from './words/second-language.ts';

/** All that a page for readers looks like. */
export const READERS_PAGE_STYLES: string = `@page { margin: 14mm; }\n${GUIDE_STYLES}${READERS_STYLES}`;

/** What a page for readers is made of. */
export interface ReadersPageOptions {
  /** The workbook as its maker has it. */
  readonly document: BookDocument;
  /** The program of the page for the workbook that goes into it: `readersScript` makes it. */
  readonly script: (document: BookDocument) => string;
  /** SHA-256 of a text in hexadecimal digits: the page says which script and styles may run in it. */
  readonly sign: (text: string) => string;
  /** The day that stands on the cover, as it is to be read. */
  readonly day?: string;
  /** Where the source of the program lies, where it is elsewhere than {@link PROGRAM_SOURCE} says. */
  readonly source?: string;
  /** Script and styles are files of their own beside the page, by these names: for hosts that forbid them within it. */
  readonly split?: { readonly script: string; readonly styles: string };
}

/** What a page for readers comes to, or why it cannot be made. */
export type ReadersPageMade =
  | {
      readonly ok: true;
      readonly page: string;
      /** What lies beside the page, by the names of its files. */
      readonly files: Readonly<Record<string, string>>;
    }
  | { readonly ok: false; readonly says: string };

/** The grain of boards in the page as it comes: its program draws it. */
const GRAIN = /<path class="kb-(?:board-grain|rings)"[^>]*\/>/g;

/** How many cells a refusal names. */
const NAMED = 6;

/** Why a page cannot carry a workbook; undefined where it can. */
function whyNot(document: BookDocument): string | undefined {
  const found = notCarried(document);
  if (found === undefined) return undefined;
  const { left } = found;
  if (left.length === 0) {
    return 'This workbook takes too long to work out for a page. Take formulas out of it that readers do not need, or print the plan.';
  }
  const named = left
    .slice(0, NAMED)
    .map(({ where, word }) => (word === '' ? where : `${where} (${word})`));
  const more = left.length > NAMED ? ` and ${left.length - NAMED} more` : '';
  return `A page for readers cannot work out ${named.join(', ')}${more}. Write these formulas otherwise, or print the plan.`;
}

/**
 * A page that follows its reader's size, whole in one file (or in three, `split`): the plan drawn at the size of its maker,
 * the workbook as readers may have it, and the program. It asks nothing of a network.
 */
export function readersPage(options: ReadersPageOptions): ReadersPageMade {
  const document = bookForReaders(options.document);
  const says = whyNot(document);
  if (says !== undefined) return { ok: false, says };
  const book = ReaderBook.open(document);
  const { day, sign, split, source = PROGRAM_SOURCE } = options;
  const script = options.script(document);
  const { head } = book;
  // The figures of steps would be a fourth of the page's weight, and its program draws them anyway.
  const making = makingOf(book, {
    ticks: true,
    figures: () => new Map(),
    ...(day === undefined ? {} : { day }),
  });
  const title = making.theirsText(head.guide?.title ?? head.title);
  const styles = READERS_PAGE_STYLES;
  const data: PageData = {
    plan: sign(JSON.stringify([head.title, head.author ?? ''])).slice(0, 16),
    book: document,
    ...(day === undefined ? {} : { day }),
    ...(source === undefined ? {} : { source }),
  };
  const sections = sectionsOf(making).map((one) => new Html(one.html.replaceAll(GRAIN, '')));
  const hash = (text: string): string => `'sha256-${base64Of(sign(text))}'`;
  const policy = [
    `default-src 'none'`,
    `script-src ${split === undefined ? hash(script) : "'self'"}`,
    `style-src ${split === undefined ? hash(styles) : "'self'"}`,
    'img-src data:',
    'font-src data:',
    `base-uri 'none'`,
    `form-action 'none'`,
  ].join('; ');
  const tone = head.guide?.tone ?? 'graphite';
  const page = html`<!doctype html>
<html lang="${making.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="generator" content="Kerfbook">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
${split === undefined ? new Html(`<style>${styles}</style>`) : html`<link rel="stylesheet" href="${split.styles}">`}
</head>
<body class="guide guide-readers guide-tone-${tone}">
<p id="${PAGE_IDS.noScript}" class="guide-no-script"${making.language === OWN_LANGUAGE ? undefined : html` lang="${OWN_LANGUAGE}"`}>${NO_SCRIPT}${noScriptToo(book)}</p>
<main id="${PAGE_IDS.pages}" class="guide-pages">
${sections.map(
  (one) => html`${one}
`,
)}</main>
<footer id="${PAGE_IDS.program}" class="guide-program">${programNote(making, source)}</footer>
${scriptOf(`type="application/json" id="${PAGE_IDS.data}"`, safeJson(data))}
${split === undefined ? scriptOf('', script) : scriptOf(`src="${escaped(split.script)}"`, '')}
</body>
</html>
`;
  const files = split === undefined ? {} : { [split.script]: script, [split.styles]: styles };
  return { ok: true, page: page.markup, files };
}

const OWN_LANGUAGE = 'en';
const NO_SCRIPT: ReadersWord =
  'Here is the plan at the size of its maker, all its steps in words and sizes, without their figures. In a newer browser, with JavaScript on, you see them too and can choose your own size.';

/** The same in the second language: without script nobody turns to it. */
function noScriptToo(book: ReaderBook): Put {
  const translation = readTranslation(book);
  if (translation?.language === undefined || !translation.has(NO_SCRIPT)) return undefined;
  return html` <span lang="${translation.language}">${translation.say(NO_SCRIPT)}</span>`;
}

/** A script element. Its end stands in no tagged template: builders of apps lower one that holds it by a helper. */
const scriptOf = (attributes: string, text: string): Html =>
  new Html(`<script${attributes === '' ? '' : ` ${attributes}`}>${text}</script>`);

/** Data as it may stand within a script element: nothing in it ends that element or begins a comment. */
const safeJson = (data: PageData): string =>
  JSON.stringify(data)
    .replaceAll('<', '\\u003c')
    .replaceAll('\u2028', '\\u2028')
    .replaceAll('\u2029', '\\u2029');

function base64Of(hex: string): string {
  const bytes = hex.match(/../g) ?? [];
  return btoa(String.fromCharCode(...bytes.map((byte) => Number.parseInt(byte, 16))));
}
