import { Html, html } from './html.ts';

/** Paper that pages are printed on. */
export const PAPERS = ['a4', 'letter'] as const;

/** A paper. */
export type Paper = (typeof PAPERS)[number];

const SIZES: Readonly<Record<Paper, string>> = { a4: 'A4', letter: 'letter' };

/** Source Sans 3 as WOFF2, in base64. */
export interface PageFonts {
  /** Weight 400. */
  readonly regular: string;
  /** Weight 600. */
  readonly bold: string;
}

/** What a page to print is made of. */
export interface PrintedPage {
  /** What it is called where a window or a file names it. */
  readonly title: string;
  /** What it is in, a tag after BCP 47. */
  readonly language: string;
  /** The sheet it is laid out for. */
  readonly paper: Paper;
  /** The letters it is set in; the reader's own where left out. */
  readonly fonts?: PageFonts;
  /** For what stands in an element of the class `guide`. */
  readonly styles: string;
  /** What stands in it. */
  readonly main: Html;
}

/** One page of HTML, ready to print: nothing is asked of a network, and no script is in it or would run. */
export function printedPage({ title, language, paper, fonts, styles, main }: PrintedPage): string {
  const page = html`<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:">
<meta name="generator" content="Kerfbook">
<title>${title}</title>
<style>
${new Html(pageRule(paper) + fontRules(fonts) + styles)}</style>
</head>
<body class="guide">
${main}
</body>
</html>
`;
  return page.markup;
}

/** Paper with the number of each page at its foot, where the printing program can count them. */
const pageRule = (paper: Paper): string =>
  `@page { size: ${SIZES[paper]}; margin: 14mm 14mm 16mm; @bottom-right { content: counter(page) " / " counter(pages); font: 9pt sans-serif; } }\n`;

const BASE64 = /^[A-Za-z0-9+/]+={0,2}$/;

function fontRules(fonts: PageFonts | undefined): string {
  if (fonts === undefined) return '';
  const rule = (data: string, weight: number): string => {
    if (!BASE64.test(data)) throw new RangeError('A font is handed over in base64.');
    return `@font-face { font-family: "Source Sans 3"; font-weight: ${weight}; src: url(data:font/woff2;base64,${data}) format("woff2"); }\n`;
  };
  return rule(fonts.regular, 400) + rule(fonts.bold, 600);
}
