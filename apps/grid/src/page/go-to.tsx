import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { wordsFor } from '../session/called.ts';

interface GoToProps {
  readonly book: OpenWorkbook;
  readonly at: At;
  readonly onGo: (at: At) => void;
}

/**
 * A button that takes the maker to a cell, by what stands beside it, else its name, else its own words, else where
 * it is: `Go to Length of the top`, `Go to Seat, boards`, `Go to Seat`, `Go to Base B7`.
 */
export function GoTo({ book, at, onGo }: GoToProps) {
  const { name, address, value } = book.cell(at);
  const own = value.kind === 'text' ? value.text : undefined;
  return (
    <button type="button" className="button-plain" onClick={() => onGo(at)}>
      Go to {wordsFor(at, book) ?? name ?? own ?? `${book.sheet(at.sheet)?.name} ${address}`}
    </button>
  );
}
