import type { PartProblem } from '@kerfbook/drawing';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { GoTo } from '../page/go-to.tsx';

interface NoteListProps {
  readonly book: OpenWorkbook;
  readonly notes: readonly PartProblem[];
  readonly onGo: (at: At) => void;
}

/** What is to be looked at in a drawing, each leading to its cell; nothing where there is nothing. */
export function NoteList({ book, notes, onGo }: NoteListProps) {
  if (notes.length === 0) return null;
  return (
    <ul className="sentences">
      {notes.map(({ at, says }) => (
        <li key={`${at.sheet}:${at.row}:${at.column}:${says}`}>
          {says} <GoTo book={book} at={at} onGo={onGo} />
        </li>
      ))}
    </ul>
  );
}
