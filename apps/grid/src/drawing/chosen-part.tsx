import { bookFormat, type Part, patternFile, wholePatterns } from '@kerfbook/drawing';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { useMemo } from 'react';
import { download } from '../storage/download.ts';
import { fileStem } from './save-drawing.ts';

interface ChosenPartProps {
  readonly book: OpenWorkbook;
  /** All there are, as they are drawn. */
  readonly parts: readonly Part[];
  readonly part: Part | undefined;
  readonly onGo: (at: At) => void;
}

/** The piece that was chosen in a picture or in the list, and the way to its row. */
export function ChosenPart({ book, parts, part, onGo }: ChosenPartProps) {
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
          <PatternSaves book={book} parts={parts} part={part} />
        </>
      )}
    </div>
  );
}

/** The outline of a part with a curve at true size, as a file for whoever cuts by one. */
function PatternSaves({
  book,
  parts,
  part,
}: Omit<ChosenPartProps, 'onGo'> & { readonly part: Part }) {
  const patterns = useMemo(() => wholePatterns(parts), [parts]);
  const pattern = patterns.find((one) => one.part.at.row === part.at.row);
  if (pattern === undefined) return null;
  const save = (to: 'svg' | 'dxf') => (): void =>
    download(
      `${fileStem(`${book.title} ${part.name}`)}-pattern.${to}`,
      patternFile(pattern, to, book.units),
      to === 'svg' ? 'image/svg+xml' : 'image/vnd.dxf',
    );
  return (
    <span className="actions">
      {(['svg', 'dxf'] as const).map((to) => (
        <button key={to} type="button" className="button" onClick={save(to)}>
          Save pattern as {to.toUpperCase()}
        </button>
      ))}
    </span>
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
