import { checksKept } from '../readers-book.ts';
import type { GuideSource } from '../source.ts';
import { Html, html } from './html.ts';
import { makingOf } from './making.ts';
import type { GuideOptions } from './options.ts';
import { sectionsOf } from './sections.ts';
import { GUIDE_STYLES } from './styles.ts';

/** Paper that a guide is printed on. */
export const PAPERS = ['a4', 'letter'] as const;

/** A paper. */
export type Paper = (typeof PAPERS)[number];

const SIZES: Readonly<Record<Paper, string>> = { a4: 'A4', letter: 'letter' };

/** How a whole page is made. */
export interface GuidePageOptions extends GuideOptions {
  /** The sheet it is laid out for. */
  readonly paper: Paper;
  /** The letters it is set in, so that words take the room that drawings left for them; the reader's own where left out. */
  readonly fonts?: GuideFonts;
}

/** Source Sans 3 as WOFF2, in base64. */
export interface GuideFonts {
  /** Weight 400. */
  readonly regular: string;
  /** Weight 600. */
  readonly bold: string;
}

/** A guide as one page of HTML, ready to print: nothing is asked of a network, and no script is in it. */
export function guidePage(source: GuideSource, options: GuidePageOptions): string {
  // A printed page is handed out like any other: what is kept from readers does not stand in it.
  const without = new Set(checksKept(source.document()).map(({ id }) => id));
  const making = makingOf(source, { print: true, without, ...options });
  const title = making.theirsText(source.head.guide?.title ?? source.title);
  const sections = sectionsOf(making).map((one) => new Html(one.html));
  const page = html`<!doctype html>
<html lang="${making.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:">
<meta name="generator" content="Kerfbook">
<title>${title}</title>
<style>
${new Html(pageRule(options.paper) + fontRules(options.fonts) + GUIDE_STYLES)}</style>
</head>
<body class="guide">
<main class="guide-pages">
${sections.map(
  (one) => html`${one}
`,
)}</main>
</body>
</html>
`;
  return page.markup;
}

/** Paper with the number of each page at its foot, where the printing program can count them. */
const pageRule = (paper: Paper): string =>
  `@page { size: ${SIZES[paper]}; margin: 14mm 14mm 16mm; @bottom-right { content: counter(page) " / " counter(pages); font: 9pt sans-serif; } }\n`;

const BASE64 = /^[A-Za-z0-9+/]+={0,2}$/;

function fontRules(fonts: GuideFonts | undefined): string {
  if (fonts === undefined) return '';
  const rule = (data: string, weight: number): string => {
    if (!BASE64.test(data)) throw new RangeError('A font is handed over in base64.');
    return `@font-face { font-family: "Source Sans 3"; font-weight: ${weight}; src: url(data:font/woff2;base64,${data}) format("woff2"); }\n`;
  };
  return rule(fonts.regular, 400) + rule(fonts.bold, 600);
}
