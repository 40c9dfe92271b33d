import { readFile } from 'node:fs/promises';
import type { GuideFonts } from '@kerfbook/guide';

const REGULAR = import.meta.resolve(
  '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff2',
);
const BOLD = import.meta.resolve(
  '@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff2',
);

/** The letters of a printed guide, as its page carries them. */
export async function guideFonts(): Promise<GuideFonts> {
  const data = async (file: string): Promise<string> =>
    (await readFile(new URL(file))).toString('base64');
  return { regular: await data(REGULAR), bold: await data(BOLD) };
}
