import { readFile } from 'node:fs/promises';
import type { PageFonts } from '@kerfbook/guide';

const FILES = {
  regular: import.meta.resolve(
    '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff2',
  ),
  bold: import.meta.resolve('@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff2'),
} as const;

const data = async (address: string): Promise<string> =>
  (await readFile(new URL(address))).toString('base64');

/** The letters of a printed guide, as its page carries them. */
export const guideFonts = async (): Promise<PageFonts> => ({
  regular: await data(FILES.regular),
  bold: await data(FILES.bold),
});
