import {
  type Box,
  bookFormat,
  buildScene,
  overAllOf,
  type Part,
  sizeWords,
} from '@kerfbook/drawing';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { lengthUnit } from '../shop/words.ts';
import { partAt } from './notes.ts';

interface PieceListProps {
  readonly book: OpenWorkbook;
  readonly parts: readonly Part[];
  readonly chosen: At | undefined;
  readonly onChoose: (at: At) => void;
}

/** The pieces as a list to choose from: for keys, and for whoever does not see the pictures. */
export function PieceChoice({ parts, chosen, onChoose }: Omit<PieceListProps, 'book'>) {
  const now = partAt(parts, chosen);
  return (
    <select
      className="piece-choice"
      aria-label="Piece"
      value={now === undefined ? '' : parts.indexOf(now)}
      onChange={(event) => {
        const part = parts[Number(event.target.value)];
        if (part !== undefined && event.target.value !== '') onChoose(part.at);
      }}
    >
      <option value="">Choose a piece</option>
      {parts.map((part, index) => (
        <option key={`${part.at.sheet}:${part.at.row}`} value={index}>
          {part.count === 1 ? part.name : `${part.name}, ${part.count} pieces`}
        </option>
      ))}
    </select>
  );
}

/** `84 long, 42 wide, 30 high`; of a round table `48 across, 30 high`. */
function overAllSaid(book: OpenWorkbook, extents: Box): string {
  const format = bookFormat(book);
  const sizes = overAllOf(book, extents);
  const { along, across, up } = sizeWords(book, sizes);
  const flat = [`${format(sizes.x)} ${along.adjective}`, `${format(sizes.y)} ${across.adjective}`];
  return [...new Set(flat), `${format(sizes.z)} ${up.adjective}`].join(', ');
}

/** The same as a table with the sizes, and what is drawn over all. */
export function PieceTable({ book, parts, chosen, onChoose }: PieceListProps) {
  const format = bookFormat(book);
  const { extents } = buildScene(parts);
  const now = partAt(parts, chosen);
  return (
    <table className="piece-table">
      <caption>
        Pieces, sizes in {lengthUnit(book)}
        {extents === undefined ? '' : `. Overall ${overAllSaid(book, extents)}.`}
      </caption>
      <thead>
        <tr>
          <th scope="col">Piece</th>
          <th scope="col">Count</th>
          <th scope="col">Thick</th>
          <th scope="col">Wide</th>
          <th scope="col">Long</th>
        </tr>
      </thead>
      <tbody>
        {parts.map((part) => (
          <tr key={`${part.at.sheet}:${part.at.row}`} data-chosen={part === now}>
            <th scope="row">
              <button
                type="button"
                className="button-plain"
                aria-pressed={part === now}
                onClick={() => onChoose(part.at)}
              >
                {part.name}
              </button>
              {part.placing === undefined ? <span className="quiet"> not placed</span> : null}
            </th>
            <td>{part.count}</td>
            <td>{format(part.thickness)}</td>
            <td>{format(part.width)}</td>
            <td>{format(part.length)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
