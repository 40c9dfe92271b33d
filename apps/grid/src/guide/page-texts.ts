import { PAGE_WORDS, READERS_WORDS, readPlan } from '@kerfbook/guide';
import type { OpenWorkbook } from '@kerfbook/workbook';

/** A part's material, its name, what a size is called: each as a page says it. */
const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** What readers see beside the steps: what the maker wrote around them, names of parts and woods, the page's own words. */
export function pageTexts(book: OpenWorkbook): readonly string[] {
  const { guide = {}, photos = {} } = book.head;
  const plan = readPlan(book);
  const long = [guide.before, guide.after, guide.credits].flatMap(
    (text) => text?.split('\n') ?? [],
  );
  return [
    guide.title ?? book.title,
    ...long,
    ...plan.parts.parts.flatMap(({ name, material }) =>
      material === undefined ? [name] : [name, material, capital(material)],
    ),
    ...plan.steps.flatMap(({ measures }) => measures.map(({ label }) => label)),
    ...Object.values(photos).flatMap(({ says }) => says ?? []),
    ...(guide.inputs ?? []).flatMap((name) => {
      const cell = book.named(name);
      return cell === undefined ? [] : [book.labelOf(cell.at)];
    }),
    ...PAGE_WORDS,
    ...READERS_WORDS,
  ];
}
