import { checksKept } from '../readers-book.ts';
import type { GuideSource } from '../source.ts';
import { Html, html } from './html.ts';
import { makingOf } from './making.ts';
import type { GuideOptions } from './options.ts';
import { type PageFonts, type Paper, printedPage } from './printed-page.ts';
import { sectionsOf } from './sections.ts';
import { GUIDE_STYLES } from './styles.ts';

/** How a whole page is made. */
export interface GuidePageOptions extends GuideOptions {
  /** The sheet it is laid out for. */
  readonly paper: Paper;
  /** The letters it is set in, so that words take the room that drawings left for them; the reader's own where left out. */
  readonly fonts?: PageFonts;
}

/** A guide as one page of HTML, ready to print: nothing is asked of a network, and no script is in it. */
export function guidePage(source: GuideSource, options: GuidePageOptions): string {
  // A printed page is handed out like any other: what is kept from readers does not stand in it.
  const without = new Set(checksKept(source.document()).map(({ id }) => id));
  const making = makingOf(source, { print: true, without, ...options });
  const sections = sectionsOf(making).map((one) => new Html(one.html));
  return printedPage({
    ...options,
    title: making.theirsText(source.head.guide?.title ?? source.title),
    language: making.language,
    styles: GUIDE_STYLES,
    main: html`<main class="guide-pages">
${sections.map(
  (one) => html`${one}
`,
)}</main>`,
  });
}
