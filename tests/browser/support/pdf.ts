import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Page } from 'playwright-core';

/** A printed page read back by a PDF library that knows nothing of ours. */
export interface PrintedPage {
  /** mm */
  readonly width: number;
  readonly height: number;
  /** Its text in the order of the file, white space evened out. */
  readonly text: string;
  readonly words: readonly PrintedWords[];
}

/** A run of words and where its line begins, mm from the left and the lower edge. */
export interface PrintedWords {
  readonly text: string;
  /** How large its letters are, points. */
  readonly size: number;
  readonly x: number;
  readonly y: number;
  /** What it takes from there to the right; of words that are turned up, how far their letters reach. */
  readonly width: number;
}

const MM_PER_POINT = 25.4 / 72;

/** Prints what the page would print, and reads the file back. */
export async function printed(page: Page, keepAt?: string): Promise<PrintedPage[]> {
  const bytes = await page.pdf({
    preferCSSPageSize: true,
    printBackground: true,
    ...(keepAt === undefined ? {} : { path: keepAt }),
  });
  const file = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const pages: PrintedPage[] = [];
  for (let number = 1; number <= file.numPages; number += 1) {
    const one = await file.getPage(number);
    const [left = 0, bottom = 0, right = 0, top = 0] = one.view;
    const { items } = await one.getTextContent();
    const words = items.flatMap((item): PrintedWords[] => {
      if (!('str' in item) || item.str.trim() === '') return [];
      const [, turned = 0, up = 0, high = 0, x = 0, y = 0] = item.transform as number[];
      const size = Math.hypot(up, high);
      // Sizes beside a drawing are read from the right: their letters stand left of their line.
      if (Math.abs(turned) > Math.abs(high)) {
        const left = x - (turned > 0 ? size : 0);
        return [
          {
            text: item.str,
            size,
            x: left * MM_PER_POINT,
            y: (turned > 0 ? y : y - item.width) * MM_PER_POINT,
            width: size * MM_PER_POINT,
          },
        ];
      }
      return [
        {
          text: item.str,
          size,
          x: x * MM_PER_POINT,
          y: y * MM_PER_POINT,
          width: item.width * MM_PER_POINT,
        },
      ];
    });
    pages.push({
      width: (right - left) * MM_PER_POINT,
      height: (top - bottom) * MM_PER_POINT,
      text: items
        .map((item) => ('str' in item ? item.str : ' '))
        .join(' ')
        .replace(/\s+/g, ' '),
      words,
    });
  }
  await file.destroy();
  return pages;
}
