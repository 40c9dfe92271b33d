import { bookFormat, type Part } from '@kerfbook/drawing';
import type { At, OpenWorkbook } from '@kerfbook/workbook';

interface ChosenPartProps {
  readonly book: OpenWorkbook;
  readonly part: Part | undefined;
  readonly onGo: (at: At) => void;
}

/** The piece that was chosen in a picture or in the list, and the way to its row. */
export function ChosenPart({ book, part, onGo }: ChosenPartProps) {
  return (
    <div className="chosen-piece" role="status">
      {part === undefined ? (
        <p className="quiet">Press a piece in the drawing or in the list.</p>
      ) : (
        <>
          <strong>{part.name}</strong>
          <span>{sentence(book, part)}</span>
          <button type="button" className="button" onClick={() => onGo(part.at)}>
            Go to row {part.at.row + 1} on {book.sheet(part.at.sheet)?.name}
          </button>
        </>
      )}
    </div>
  );
}

function sentence(book: OpenWorkbook, part: Part): string {
  const format = bookFormat(book);
  const sizes = [part.thickness, part.width, part.length].map(format).join(' × ');
  const count = part.count === 1 ? '1 piece' : `${part.count} pieces`;
  const boards = part.panelBoards === undefined ? [] : [`${part.panelBoards.count} boards each`];
  const layers = part.layers === undefined ? [] : [`${part.layers} layers each`];
  const material = part.material === undefined ? [] : [part.material];
  return [`${count}, ${sizes}`, ...boards, ...layers, ...material].join(', ');
}
