import { breath } from '@kerfbook/keeping';
import { useCallback } from 'react';
import { LookedAt } from '../library/looked-at.tsx';
import '../library/sending.css';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import { OnItsWay } from './complaint.tsx';
import { type InsideOf, insideOf, type Prices } from './inside-of.ts';
import { revisionOf } from './revisions-read.ts';
import { useAsked } from './use-asked.ts';
import { counted } from './words.ts';

/**
 * What is in a template, worked out here: its drawing, what it asks for, its checks, its parts, and what it costs in
 * three sizes. Its formulas can only calculate, as in any workbook.
 */
export function Inside({ id, revision }: { readonly id: string; readonly revision: number }) {
  useDrawingStyle();
  const found = useAsked(
    useCallback(async () => {
      const { document } = await revisionOf(id, revision);
      // What is known of it already is seen before it is worked out.
      await breath();
      return { document, inside: await insideOf(document) };
    }, [id, revision]),
  );
  return (
    <section className="shelf-part shelf-inside" aria-label="What is in it">
      <h3>What is in it</h3>
      {found.is === undefined ? (
        <OnItsWay says={found.says} what="Working it out on this device …" again={found.again} />
      ) : (
        <>
          <LookedAt document={found.is.document} />
          <InThreeSizes prices={found.is.inside.prices} />
          <Inputs inputs={found.is.inside.inputs} />
          <Parts parts={found.is.inside.parts} />
        </>
      )}
    </section>
  );
}

function InThreeSizes({ prices }: { readonly prices: Prices }) {
  if (prices.is === 'none') return <p className="quiet">{prices.says}</p>;
  return (
    <div className="shelf-scroll">
      <table className="shelf-table">
        <caption>Price by "{prices.by}", everything else as it is</caption>
        <thead>
          <tr>
            <th scope="col">{prices.by}</th>
            {prices.columns.map((one) => (
              <th key={one} scope="col">
                {one}
              </th>
            ))}
            <th scope="col">Checks</th>
          </tr>
        </thead>
        <tbody>
          {prices.rows.map(({ which, at, shown, not }) => (
            <tr key={which}>
              <th scope="row">
                {at} <span className="quiet">{which}</span>
              </th>
              {shown.map((one, i) => (
                <td key={prices.columns[i]}>{one}</td>
              ))}
              <td>{not}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Inputs({ inputs }: { readonly inputs: InsideOf['inputs'] }) {
  if (inputs.length === 0) return <p>It asks for nothing.</p>;
  return (
    <details className="shelf-fold">
      <summary>What you can set ({inputs.length})</summary>
      <div className="shelf-scroll">
        <table className="shelf-table">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">As it is</th>
              <th scope="col">Allowed</th>
            </tr>
          </thead>
          <tbody>
            {inputs.map(({ key, what, sheet, shown, allowed }) => (
              <tr key={key}>
                <th scope="row">
                  {what} <span className="quiet">{sheet}</span>
                </th>
                <td>{shown}</td>
                <td>{allowed}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

function Parts({ parts }: { readonly parts: InsideOf['parts'] }) {
  if (parts.length === 0) return <p>It has no parts table that can be read.</p>;
  const pieces = parts.reduce((sum, { count }) => sum + count, 0);
  return (
    <details className="shelf-fold">
      <summary>Parts ({counted(pieces, 'piece')})</summary>
      <div className="shelf-scroll">
        <table className="shelf-table">
          <thead>
            <tr>
              <th scope="col">Part</th>
              <th scope="col">Pieces</th>
              <th scope="col">Thickness × width × length</th>
              <th scope="col">Wood</th>
            </tr>
          </thead>
          <tbody>
            {parts.map(({ key, name, count, size, material }) => (
              <tr key={key}>
                <th scope="row">{name}</th>
                <td>{count}</td>
                <td>{size}</td>
                <td>{material}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
