import type { BookDocument } from './schema.ts';

type HeadKey = Exclude<keyof BookDocument, 'sheets' | 'checks' | 'tables'>;

const WORDS: Readonly<Record<HeadKey, string>> = {
  kerfbook: 'version',
  title: 'title',
  about: 'description',
  customer: 'customer',
  job: 'job number',
  due: 'due date',
  agreed: 'day the price was agreed on',
  revision: 'revision',
  terms: 'terms',
  letterhead: 'letterhead',
  guide: 'plan for others',
  photos: 'photographs',
  units: 'units',
  currency: 'currency',
  licence: 'licence',
  author: 'author',
  locked: 'lock',
  promises: 'promises',
  results: 'results told first',
  tags: 'tags',
  lineage: 'template',
};

/** What is said of a workbook as a whole, as a person calls it: `due` is the due date. Other words stay as they are. */
export const headWords = (key: string): string =>
  Object.hasOwn(WORDS, key) ? WORDS[key as HeadKey] : key;
