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
}

/** A guide as one page of HTML, ready to print: nothing is asked of a network, and no script is in it. */
export function guidePage(source: GuideSource, options: GuidePageOptions): string {
  const making = makingOf(source, { print: true, ...options });
  const title = making.theirsText(source.head.guide?.title ?? source.title);
  const sections = sectionsOf(making).map((one) => new Html(one.html));
  const page = html`<!doctype html>
<html lang="${making.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<meta name="generator" content="Kerfbook">
<title>${title}</title>
<style>
${new Html(pageRule(options.paper) + GUIDE_STYLES)}</style>
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

const pageRule = (paper: Paper): string => `@page { size: ${SIZES[paper]}; margin: 14mm; }\n`;
