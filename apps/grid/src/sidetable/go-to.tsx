import type { At, OpenWorkbook } from '@kerfbook/workbook';

interface GoToProps {
  readonly book: OpenWorkbook;
  readonly at: At;
  readonly onGo: (at: At) => void;
}

/** A button that takes the maker to a cell: `Go to Base B7`. */
export function GoTo({ book, at, onGo }: GoToProps) {
  return (
    <button type="button" className="button-plain" onClick={() => onGo(at)}>
      Go to {book.sheet(at.sheet)?.name} {book.addressOf(at)}
    </button>
  );
}
