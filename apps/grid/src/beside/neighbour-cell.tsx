import { type At, type Neighbour, type OpenWorkbook, withUnit } from '@kerfbook/workbook';
import { nameBeside } from '../page/words-for.ts';
import { wordsFor } from '../session/called.ts';

interface NeighbourCellProps {
  readonly book: OpenWorkbook;
  readonly one: Neighbour;
  readonly onGo: (at: At) => void;
}

/** A cell that another one reads or that uses it: what a maker calls it, its name for formulas, and what it shows. */
export function NeighbourCell({ book, one, onGo }: NeighbourCellProps) {
  const { at, address, label, shown } = one;
  const { name, unit } = book.cell(at);
  const words = wordsFor(at, book) ?? label;
  const beside = nameBeside(words, name);
  return (
    <>
      <span className="neighbour-called">
        <button type="button" className="button-plain" title={address} onClick={() => onGo(at)}>
          {words}
        </button>
        {beside === undefined ? null : <span className="neighbour-name">{beside}</span>}
      </span>
      <span className="neighbour-value">{withUnit(shown, unit)}</span>
    </>
  );
}
