import {
  type At,
  type CellView,
  type Explanation,
  functionNote,
  type Neighbour,
  type OpenWorkbook,
  withUnit,
} from '@kerfbook/workbook';
import { useMemo, useState } from 'react';
import { exactWords } from '../page/exact-words.ts';
import { FormulaText } from '../page/formula-text.tsx';
import { GoTo } from '../page/go-to.tsx';
import { reasonsOf, UNPROVEN } from '../page/reasons.ts';
import type { PartTrouble } from '../session/types.ts';
import { Branches } from './branches.tsx';
import { underOverride, whatItAllows, whatItIs } from './cell-words.ts';
import { NeighbourCell } from './neighbour-cell.tsx';
import type { Seen } from './seen.ts';
import { StateIcon } from './state-icon.tsx';
import { TableValues } from './table-values.tsx';

interface CellFoldProps {
  readonly seen: Seen;
  readonly at: At | undefined;
  readonly mayChange: boolean;
  readonly onGo: (at: At) => void;
  readonly onRestore: (at: At) => void;
  readonly onFunction: (name: string) => void;
  /** What is wrong with it as the place of a part, or as its shape. */
  readonly trouble?: PartTrouble | undefined;
  /** It rests on a plan that is not proven yet. */
  readonly unproven: boolean;
}

/** Why the current cell shows what it shows, down to the inputs and the sources. */
export function CellFold(props: CellFoldProps) {
  const { seen, at, mayChange, onGo, onRestore, onFunction, trouble, unproven } = props;
  const found = useMemo(() => look(seen.book, at), [seen, at]);
  if (found === undefined)
    return <p className="quiet">Choose a cell to see what it is worked out from.</p>;
  const { cell, why } = found;
  const { book } = seen;
  return (
    <div className="cell-fold">
      <p className="cell-name">
        <strong>{why.name ?? why.address}</strong>
        {why.name === undefined ? null : <span className="quiet"> {why.address}</span>}
      </p>
      <p className="quiet">{whatItIs(cell)}</p>
      <CellValue cell={cell} />
      <CellTrouble book={book} cell={cell} why={why} trouble={trouble} onGo={onGo} />
      <Sentence says={unproven ? UNPROVEN : undefined} />
      {cell.override === undefined ? null : (
        <Override book={book} cell={cell} mayChange={mayChange} onRestore={onRestore} />
      )}
      {cell.remark === undefined ? null : <p className="remark">{cell.remark}</p>}
      <Head book={book} at={cell.at} />
      <Sentence says={whatItAllows(book, cell)} />
      {why.formula === undefined ? null : <Formula why={why} />}
      <Neighbours book={book} title="Worked out from" list={why.rests} onGo={onGo} />
      <Branches book={book} title="Reads" list={readsBeyond(why)} way="reads" onGo={onGo} />
      <Branches book={book} title="Used by" list={why.usedBy} way="usedBy" onGo={onGo} />
      <Sentence
        says={why.alsoUsedBy.length === 0 ? undefined : `Used by ${why.alsoUsedBy.join(', ')}.`}
      />
      <TableValues why={why} />
      <Sources why={why} onFunction={onFunction} />
    </div>
  );
}

function look(book: OpenWorkbook, at: At | undefined) {
  if (at === undefined || book.sheet(at.sheet) === undefined) return undefined;
  return { cell: book.cell(at), why: book.explain(at) };
}

/** Cells read directly that are not among the inputs listed above them. */
function readsBeyond({ uses, rests }: Explanation): readonly Neighbour[] {
  const roots = new Set(rests.map(({ address }) => address));
  return uses.filter(({ address }) => !roots.has(address));
}

function CellValue({ cell }: { readonly cell: CellView }) {
  if (cell.value.kind === 'empty') return null;
  const { text, exact } = cell.shown;
  return (
    <p>
      <span className="cell-value">{withUnit(text, cell.unit)}</span>
      {exact === undefined ? null : <span className="quiet"> {exactWords(exact)}</span>}
    </p>
  );
}

function Sentence({ says }: { readonly says: string | undefined }) {
  return says === undefined ? null : <p className="quiet">{says}</p>;
}

interface TroubleProps {
  readonly book: OpenWorkbook;
  readonly cell: CellView;
  readonly why: Explanation;
  readonly trouble: PartTrouble | undefined;
  readonly onGo: (at: At) => void;
}

/** Why it bears a mark: every reason, the first one with where it began. */
function CellTrouble({ book, cell, why, trouble, onGo }: TroubleProps) {
  const from = why.error?.from;
  const elsewhere = from !== undefined && !sameCell(from, cell.at);
  return reasonsOf(cell, book, trouble).map(({ state, says }, i) => (
    <p key={says} className="trouble">
      <StateIcon state={state} />
      <span>
        {says} {i === 0 && elsewhere ? <GoTo book={book} at={from} onGo={onGo} /> : null}
      </span>
    </p>
  ));
}

/** What its column takes, where it stands in a table with heads that say so. */
function Head({ book, at }: { readonly book: OpenWorkbook; readonly at: At }) {
  const table = book
    .tables()
    .find(({ sheet, header, last }) => sheet === at.sheet && header < at.row && at.row <= last);
  if (table === undefined) return null;
  const { shown, remark } = book.cell({ ...at, row: table.header });
  if (remark === undefined) return null;
  return (
    <p className="quiet">
      <strong>{shown.text}</strong>: {remark}
    </p>
  );
}

function sameCell(a: At, b: At): boolean {
  return a.sheet === b.sheet && a.row === b.row && a.column === b.column;
}

interface OverrideProps {
  readonly book: OpenWorkbook;
  readonly cell: CellView;
  readonly mayChange: boolean;
  readonly onRestore: (at: At) => void;
}

function Override({ book, cell, mayChange, onRestore }: OverrideProps) {
  const would = underOverride(book, cell);
  return (
    <div className="override">
      <p>
        Overridden by hand: {cell.override?.typed}.
        {would === undefined ? null : ` The formula gives ${would}.`}
      </p>
      {mayChange ? (
        <button type="button" className="button" onClick={() => onRestore(cell.at)}>
          Restore the formula
        </button>
      ) : null}
    </div>
  );
}

function Formula({ why }: { readonly why: Explanation }) {
  return (
    <dl className="formula">
      <dt>Formula</dt>
      <dd>
        <FormulaText says={why.formula ?? ''} />
      </dd>
      {why.withNumbers === undefined || why.withNumbers === why.formula ? null : (
        <>
          <dt>With numbers</dt>
          <dd>
            <FormulaText says={why.withNumbers} />
          </dd>
        </>
      )}
    </dl>
  );
}

const FEW = 8;

interface NeighboursProps {
  readonly book: OpenWorkbook;
  readonly title: string;
  readonly list: readonly Neighbour[];
  readonly onGo: (at: At) => void;
}

function Neighbours({ book, title, list, onGo }: NeighboursProps) {
  const [all, setAll] = useState(false);
  if (list.length === 0) return null;
  const shown = all ? list : list.slice(0, FEW);
  return (
    <section className="neighbours">
      <h3>{title}</h3>
      <ul>
        {shown.map((one) => (
          <li key={one.address}>
            <NeighbourCell book={book} one={one} onGo={onGo} />
          </li>
        ))}
      </ul>
      {shown.length === list.length ? null : (
        <button type="button" className="button-plain" onClick={() => setAll(true)}>
          Show {list.length - shown.length} more
        </button>
      )}
    </section>
  );
}

interface SourcesProps {
  readonly why: Explanation;
  readonly onFunction: (name: string) => void;
}

function Sources({ why, onFunction }: SourcesProps) {
  if (why.functions.length === 0) return null;
  return (
    <section className="neighbours">
      <h3>Functions and their sources</h3>
      {why.looksIn.length === 0 ? null : <p>They look first in {why.looksIn.join(' and ')}.</p>}
      <dl>
        {why.functions
          .flatMap((name) => functionNote(name) ?? [])
          .map(({ name, answers, source }) => (
            <div key={name}>
              <dt>
                <button type="button" className="button-plain" onClick={() => onFunction(name)}>
                  {name}
                </button>
              </dt>
              <dd>
                {answers} <span className="quiet">Source: {source}</span>
              </dd>
            </div>
          ))}
      </dl>
    </section>
  );
}
