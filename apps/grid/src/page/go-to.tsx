import type { At, OpenWorkbook } from '@kerfbook/workbook';

interface GoToProps {
  readonly book: OpenWorkbook;
  readonly at: At;
  readonly onGo: (at: At) => void;
}

/** A button that takes the maker to a cell, by its name where it has one: `Go to top_length`, `Go to Base B7`. */
export function GoTo({ book, at, onGo }: GoToProps) {
  const { name, address } = book.cell(at);
  return (
    <button type="button" className="button-plain" onClick={() => onGo(at)}>
      Go to {name ?? `${book.sheet(at.sheet)?.name} ${address}`}
    </button>
  );
}
