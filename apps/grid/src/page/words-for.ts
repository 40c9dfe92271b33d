import { type At, circleText, type ErrorValue, type OpenWorkbook } from '@kerfbook/workbook';
import { wordsFor } from '../session/called.ts';

/** What is said of an error, the cells that it came from called by their words instead of their addresses. */
export function saidByWords(
  {
    says,
    from,
    circle,
  }: {
    readonly says: string;
    readonly from?: At | undefined;
    readonly circle?: ErrorValue['circle'] | undefined;
  },
  book: Pick<OpenWorkbook, 'labelOf' | 'sheet' | 'addressOf'>,
): string {
  if (circle !== undefined) {
    const called = circle.map(({ at, written }) => ({
      written: (at === undefined ? undefined : wordsFor(at, book)) ?? written,
    }));
    return says.replace(circleText(circle), () => circleText(called));
  }
  const words = from === undefined ? undefined : wordsFor(from, book);
  if (from === undefined || words === undefined) return says;
  const address = `${book.sheet(from.sheet)?.name}!${book.addressOf(from)}`;
  return says.replace(address, () => words);
}

/** The name to stand beside such words; none where it is the words over again. */
export function nameBeside(label: string, name: string | undefined): string | undefined {
  return name?.toLowerCase() === label.toLowerCase() ? undefined : name;
}
