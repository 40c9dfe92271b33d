import { readFile } from 'node:fs/promises';
import type { GuideFonts } from '@kerfbook/guide';

/** The letters of a printed guide, as its page carries them. */
export async function guideFonts(): Promise<GuideFonts> {
  const data = async (weight: number): Promise<string> => {
    const name = `@fontsource/source-sans-3/files/source-sans-3-latin-${weight}-normal.woff2`;
    return (await readFile(new URL(import.meta.resolve(name)))).toString('base64');
  };
  return { regular: await data(400), bold: await data(600) };
}
