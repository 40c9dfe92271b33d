import type { At, Neighbour, OpenWorkbook } from '@kerfbook/workbook';
import { useState } from 'react';
import { NeighbourCell } from './neighbour-cell.tsx';

/** Which way the tree grows: to what a cell reads, or to those that use it. */
export type Way = 'reads' | 'usedBy';

interface BranchesProps {
  readonly book: OpenWorkbook;
  readonly title: string;
  readonly list: readonly Neighbour[];
  readonly way: Way;
  readonly onGo: (at: At) => void;
}

const FEW = 8;

/** Cells a formula reads, or that use it, each to be opened further, as far as they go (G34). */
export function Branches({ book, title, list, way, onGo }: BranchesProps) {
  if (list.length === 0) return null;
  return (
    <section className="neighbours">
      <h3>{title}</h3>
      <Level book={book} list={list} way={way} onGo={onGo} above={[]} />
    </section>
  );
}

interface LevelProps extends Omit<BranchesProps, 'title'> {
  /** Addresses from the root down: a circle is not walked round. */
  readonly above: readonly string[];
}

function Level({ book, list, way, onGo, above }: LevelProps) {
  const [all, setAll] = useState(false);
  const shown = all ? list : list.slice(0, FEW);
  return (
    <>
      <ul>
        {shown.map((one) => (
          <Branch key={one.address} book={book} one={one} way={way} onGo={onGo} above={above} />
        ))}
      </ul>
      {shown.length === list.length ? null : (
        <button type="button" className="button-plain" onClick={() => setAll(true)}>
          Show {list.length - shown.length} more
        </button>
      )}
    </>
  );
}

interface BranchProps extends Omit<LevelProps, 'list'> {
  readonly one: Neighbour;
}

function Branch({ book, one, way, onGo, above }: BranchProps) {
  const [open, setOpen] = useState(false);
  const { at, address, label } = one;
  const round = above.includes(address);
  // Only a formula reads anything; asking who uses a cell costs little.
  const more =
    !round && (way === 'reads' ? book.cell(at).formula !== undefined : book.usedBy(at).length > 0);
  const further = (): readonly Neighbour[] =>
    way === 'reads' ? book.explain(at).uses : book.usedBy(at);
  return (
    <li className="branch-item">
      <span className="branch">
        {!more ? (
          <span className="branch-end" aria-hidden="true" />
        ) : (
          <button
            type="button"
            className="branch-turn"
            aria-expanded={open}
            aria-label={way === 'reads' ? `What ${label} reads` : `What uses ${label}`}
            onClick={() => setOpen(!open)}
          >
            {open ? '▾' : '▸'}
          </button>
        )}
        <NeighbourCell book={book} one={one} onGo={onGo} />
      </span>
      {open ? (
        <Level book={book} list={further()} way={way} onGo={onGo} above={[...above, address]} />
      ) : null}
    </li>
  );
}
