import { wordsWanted } from '@kerfbook/guide';
import type { Workbook } from '@kerfbook/workbook';

/** So many texts are named; of more the count is said. */
const NAMED = 20;
const LONG = 100;

/** What of a plan is not said in its second language yet, a line each after one that counts; none where all is. */
export function unsaid(book: Workbook): readonly string[] {
  const { all, missing } = wordsWanted(book);
  if (missing.length === 0) return [];
  const more = missing.length - NAMED;
  return [
    `In the second language ${all.length - missing.length} of ${all.length} texts are given; readers get these in the first one:`,
    ...missing.slice(0, NAMED).map((words) => `  ${shortened(words)}`),
    ...(more > 0 ? [`  and ${more} more`] : []),
  ];
}

const shortened = (words: string): string =>
  words.length > LONG ? `${words.slice(0, LONG)} …` : words;
