import {
  asCell,
  type Best,
  contextOf,
  type Found,
  foundWords,
  type Given,
  isStopped,
  numberOf,
  type Outcome,
  type Spread,
  shades,
  type TableRun,
  takeEdit,
} from '@kerfbook/studies';
import { type CellValue, type CellView, type OpenWorkbook, showWithUnit } from '@kerfbook/workbook';
import * as Plot from '@observablehq/plot';
import { type CSSProperties, useMemo, useState } from 'react';
import type { Session } from '../session/session.ts';
import { Chart } from './chart.tsx';
import { labelOf } from './study-form.tsx';
import type { Answer } from './use-run.ts';

interface Seen {
  readonly session: Session;
  readonly book: OpenWorkbook;
}

/** What a study came to. */
export function AnswerView({ answer, ...seen }: Seen & { readonly answer: Answer }) {
  switch (answer.kind) {
    case 'table':
      return answer.run.axes.length === 2 ? (
        <HeatTable {...seen} run={answer.run} />
      ) : (
        <LineTable {...seen} run={answer.run} />
      );
    case 'seek':
      return <FoundView {...seen} found={answer.found} />;
    case 'spread':
      return <SpreadView {...seen} run={answer.run} />;
    case 'best':
      return <BestView {...seen} run={answer.run} />;
  }
}

const shown = (book: OpenWorkbook, cell: CellView, value: CellValue): string =>
  showWithUnit(value, contextOf(book, cell));

const called = (book: OpenWorkbook, { name = '' }: CellView): string => labelOf(book, name);

/** Gives the workbook the inputs of one answer. */
function Take({
  session,
  book,
  inputs,
  set,
}: Seen & { readonly inputs: readonly CellView[]; readonly set: Given }) {
  const words = set.map((one, i) => shown(book, inputs[i] as CellView, asCell(one))).join(', ');
  return (
    <button
      type="button"
      className="button"
      disabled={!session.mayChange}
      aria-label={`Take it: ${words}`}
      onClick={() => {
        const edit = takeEdit(
          book,
          inputs.flatMap((cell, i) => {
            const value = set[i];
            return value === null || value === undefined ? [] : [{ cell, value }];
          }),
        );
        session.apply(edit, `${words}, as the study found it`);
      }}
    >
      Take it
    </button>
  );
}

function Failing({ failing }: Pick<Outcome, 'failing'>) {
  if (failing.length === 0) return <span className="quiet">all hold</span>;
  return (
    <span>
      {failing.map(({ name, state }) => (
        <span key={name} className={state === 'care' ? undefined : 'whatif-stop'}>
          {state}: {name}{' '}
        </span>
      ))}
    </span>
  );
}

function NotDone({ run }: { readonly run: TableRun }) {
  return run.rows.length < run.of ? (
    <p role="status">
      Stopped after {run.rows.length} of {run.of}.
    </p>
  ) : null;
}

/** What came of sets of inputs, a row each, with its checks and a way to take it. */
function AnswerTable({
  session,
  book,
  inputs,
  results,
  rows,
}: Seen & {
  readonly inputs: readonly CellView[];
  readonly results: readonly CellView[];
  readonly rows: readonly Outcome[];
}) {
  return (
    <>
      <div className="whatif-scroll">
        <table className="whatif-table">
          <thead>
            <tr>
              {[...inputs, ...results].map((cell) => (
                <th key={cell.name} scope="col">
                  {called(book, cell)}
                </th>
              ))}
              <th scope="col">Checks</th>
              <th scope="col">Workbook</th>
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, MOST_ROWS).map(({ set, values, failing }) => (
              <tr key={set.join('|')}>
                {inputs.map((cell, i) => (
                  <th key={cell.name} scope="row">
                    {shown(book, cell, asCell(set[i]))}
                  </th>
                ))}
                {results.map((cell, i) => {
                  const value = values[i] ?? { kind: 'empty' };
                  return (
                    <td
                      key={cell.name}
                      title={value.kind === 'error' ? value.error.says : undefined}
                    >
                      {shown(book, cell, value)}
                    </td>
                  );
                })}
                <td className="whatif-checks">
                  <Failing failing={failing} />
                </td>
                <td>
                  <Take session={session} book={book} inputs={inputs} set={set} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {rows.length > MOST_ROWS ? (
        <p className="quiet">
          The first {MOST_ROWS} of {rows.length} rows. Take larger steps to see all.
        </p>
      ) : null}
    </>
  );
}

/** Results over one input as a line, and over any number as rows. */
function LineTable({ session, book, run }: Seen & { readonly run: TableRun }) {
  const { axes, results, rows } = run;
  const [axis] = axes;
  const options = useMemo((): Plot.PlotOptions | undefined => {
    if (axis === undefined || axes.length !== 1) return undefined;
    const isNumber = axis.values.every((value) => typeof value === 'number');
    const [result] = results;
    const points = rows.flatMap((row) => {
      const y = numberOf(row.values[0]);
      return y === undefined ? [] : [{ x: row.set[0], y, stop: isStopped(row) }];
    });
    if (result === undefined || points.length === 0) return undefined;
    const line = isNumber
      ? [Plot.line(points, { x: 'x', y: 'y', strokeWidth: 2, stroke: 'currentColor' })]
      : [];
    return {
      x: {
        label: `${called(book, axis.cell)}${axis.cell.unit === '' ? '' : `, ${axis.cell.unit}`}`,
        ...(isNumber ? {} : { type: 'point' as const }),
      },
      y: { label: called(book, result), grid: true, nice: true },
      marks: [
        ...line,
        Plot.dot(
          points.filter(({ stop }) => !stop),
          { x: 'x', y: 'y', r: 4, fill: 'currentColor' },
        ),
        // One that a check stops is a hollow square: told without color.
        Plot.dot(
          points.filter(({ stop }) => stop),
          { x: 'x', y: 'y', r: 5, symbol: 'square', stroke: 'currentColor', fill: 'none' },
        ),
      ],
    };
  }, [axes.length, axis, book, results, rows]);
  return (
    <>
      {options === undefined ? null : (
        <>
          <Chart
            label={`${results.map((cell) => called(book, cell)).join(', ')} over ${axis === undefined ? '' : called(book, axis.cell)}`}
            options={options}
          />
          <p className="quiet">A hollow square breaks a check that says stop.</p>
        </>
      )}
      <AnswerTable
        session={session}
        book={book}
        inputs={axes.map(({ cell }) => cell)}
        results={results}
        rows={rows}
      />
      <NotDone run={run} />
    </>
  );
}

const MOST_ROWS = 500;

/** One result over two inputs, shaded from the least to the most. */
function HeatTable({ session, book, run }: Seen & { readonly run: TableRun }) {
  const { axes, results, rows } = run;
  const [result, setResult] = useState(0);
  const [chosen, setChosen] = useState<number>();
  const [down, across] = axes;
  const at = Math.min(result, results.length - 1);
  const shade = useMemo(() => shades(rows, at), [rows, at]);
  const cell = results[at];
  if (down === undefined || across === undefined || cell === undefined) return null;
  const wide = across.values.length;
  const picked = chosen === undefined ? undefined : rows[chosen];
  return (
    <>
      {results.length > 1 ? (
        <div className="whatif-pick" role="toolbar" aria-label="Result that is shown">
          {results.map((one, i) => (
            <button
              key={one.name}
              type="button"
              className="button"
              aria-pressed={i === at}
              onClick={() => setResult(i)}
            >
              {called(book, one)}
            </button>
          ))}
        </div>
      ) : null}
      <p className="quiet">
        {called(book, cell)}, down by {called(book, down.cell)}, across by{' '}
        {called(book, across.cell)}. The stronger the tint, the more; struck out: a check says stop.
      </p>
      <div className="whatif-scroll">
        <table className="whatif-table whatif-heat">
          <thead>
            <tr>
              <td />
              {across.values.map((value) => (
                <th key={String(value)} scope="col">
                  {shown(book, across.cell, asCell(value))}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {down.values.map((value, line) => (
              <tr key={String(value)}>
                <th scope="row">{shown(book, down.cell, asCell(value))}</th>
                {across.values.map((other, column) => {
                  const place = line * wide + column;
                  const row = rows[place];
                  const value = row?.values[at];
                  const strong = shade[place] ?? 0;
                  return (
                    <td key={String(other)} style={{ '--shade': strong } as CSSProperties}>
                      {row === undefined || value === undefined ? null : (
                        <button
                          type="button"
                          className={isStopped(row) ? 'whatif-cell is-stopped' : 'whatif-cell'}
                          aria-pressed={chosen === place}
                          title={row.failing
                            .map(({ name, state }) => `${state}: ${name}`)
                            .join('; ')}
                          onClick={() => setChosen(place)}
                        >
                          {shown(book, cell, value)}
                          {isStopped(row) ? (
                            <span className="visually-hidden"> breaks a check</span>
                          ) : null}
                        </button>
                      )}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {picked === undefined ? null : (
        <div className="whatif-picked" role="status">
          <p>
            {picked.set
              .map((one, i) => shown(book, (axes[i] as (typeof axes)[number]).cell, asCell(one)))
              .join(', ')}
            :{' '}
            {picked.values
              .map(
                (value, i) =>
                  `${called(book, results[i] as CellView)} ${shown(book, results[i] as CellView, value)}`,
              )
              .join(', ')}
            . Checks: <Failing failing={picked.failing} />
          </p>
          <Take
            session={session}
            book={book}
            inputs={axes.map((one) => one.cell)}
            set={picked.set}
          />
        </div>
      )}
      <NotDone run={run} />
    </>
  );
}

/** What a seek found, and the answers to take. */
function FoundView({ session, book, found }: Seen & { readonly found: Found }) {
  const marks = [
    ...found.crossings.flatMap(({ exact, between: [one, other] }) =>
      exact === undefined ? [one, other] : [exact, one, other],
    ),
    ...found.stretches.flatMap(({ from, to }) => (from.at === to.at ? [from] : [from, to])),
  ];
  const answers = [...new Map(marks.map((mark) => [mark.at, mark])).values()];
  return (
    <>
      {foundWords(book, found, (cell) => called(book, cell)).map((line) => (
        <p key={line}>{line}</p>
      ))}
      {answers.length === 0 ? null : (
        <AnswerTable
          session={session}
          book={book}
          inputs={[found.span.cell]}
          results={[found.goal.cell]}
          rows={answers.map(({ at, comes, failing }) => ({
            set: [at],
            values: [comes === undefined ? { kind: 'empty' } : { kind: 'number', number: comes }],
            failing,
          }))}
        />
      )}
    </>
  );
}

const PARTS = [
  ['least', 'Least'],
  ['p10', '1 in 10 under'],
  ['p50', 'Half under'],
  ['p90', '9 in 10 under'],
  ['most', 'Most'],
] as const;

/** How far results are spread, which input moves them, and which checks fail how often. */
function SpreadView({ book, run }: Seen & { readonly run: Spread }) {
  const [first] = run.results;
  const bars = useMemo((): Plot.PlotOptions | undefined => {
    if (first === undefined || first.count === 0) return undefined;
    const { bins, least, most, count } = first;
    const step = (most - least) / bins.length;
    const steps = bins.map((one, i) => ({
      from: least + i * step,
      to: least + (i + 1) * step,
      share: (100 * one) / count,
    }));
    return {
      x: { label: called(book, first.cell), nice: true },
      y: { label: '% of tries', grid: true },
      marks: [
        Plot.rectY(steps, {
          x1: 'from',
          x2: 'to',
          y: 'share',
          fill: 'currentColor',
          fillOpacity: 0.35,
          stroke: 'currentColor',
          strokeWidth: 0.75,
        }),
        Plot.ruleX([first.p10, first.p50, first.p90], {
          stroke: 'currentColor',
          strokeWidth: 2,
          strokeDasharray: '4 3',
        }),
        Plot.ruleY([0]),
      ],
    };
  }, [book, first]);
  const matters = useMemo((): Plot.PlotOptions | undefined => {
    if (first === undefined || first.matters.length === 0) return undefined;
    const all = first.matters.map(({ cell, rank }) => ({ name: called(book, cell), rank }));
    return {
      height: 60 + 28 * all.length,
      marginLeft: 180,
      x: { domain: [-1, 1], label: 'less ← moves it → more', grid: true },
      y: { label: null, domain: all.map(({ name }) => name) },
      marks: [
        Plot.barX(all, { y: 'name', x: 'rank', fill: 'currentColor', fillOpacity: 0.5 }),
        Plot.ruleX([0]),
      ],
    };
  }, [book, first]);
  return (
    <>
      {bars === undefined || first === undefined ? null : (
        <Chart label={`How often ${called(book, first.cell)} came to what`} options={bars} />
      )}
      <div className="whatif-scroll">
        <table className="whatif-table">
          <thead>
            <tr>
              <th scope="col">Result</th>
              {PARTS.map(([key, says]) => (
                <th key={key} scope="col">
                  {says}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {run.results.map((one) => (
              <tr key={one.cell.address + one.cell.at.sheet}>
                <th scope="row">{called(book, one.cell)}</th>
                {PARTS.map(([key]) => (
                  <td key={key}>{shown(book, one.cell, { kind: 'number', number: one[key] })}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {matters === undefined || first === undefined ? null : (
        <>
          <h3>What moves {called(book, first.cell)} most</h3>
          <Chart label={`How far each input moves ${called(book, first.cell)}`} options={matters} />
          <ul>
            {first.matters.map(({ cell, rank }) => (
              <li key={cell.name}>
                {called(book, cell)}: {rank.toFixed(2)}
              </li>
            ))}
          </ul>
        </>
      )}
      {run.checks.length === 0 ? (
        <p>Every check holds in all tries.</p>
      ) : (
        <ul>
          {run.checks.map(({ name, state, share }) => (
            <li key={name}>
              {state}: {name}, in {(100 * share).toFixed(1)} % of tries
            </li>
          ))}
        </ul>
      )}
      {run.results
        .filter(({ lost }) => lost > 0)
        .map(({ cell, lost }) => (
          <p key={cell.name}>
            {called(book, cell)} came to no number in {lost} tries.
          </p>
        ))}
      <p className="quiet">
        {run.draws} tries, seed {run.seed}. Each input is drawn from the triangle over its low,
        likely and high, whatever the others are.
      </p>
    </>
  );
}

/** The best that was found, and what it is traded off for. */
function BestView({ session, book, run }: Seen & { readonly run: Best }) {
  const { axes, aims, front } = run;
  const options = useMemo((): Plot.PlotOptions | undefined => {
    const [one, other] = aims;
    if (one === undefined || other === undefined || front.length < 2) return undefined;
    const points = front.map(({ comes: [x, y] }) => ({ x, y }));
    return {
      x: { label: called(book, one.cell), nice: true, grid: true },
      y: { label: called(book, other.cell), nice: true, grid: true },
      marks: [
        Plot.line(points, {
          x: 'x',
          y: 'y',
          curve: 'step-after',
          stroke: 'currentColor',
        }),
        Plot.dot(points, { x: 'x', y: 'y', r: 4, fill: 'currentColor' }),
      ],
    };
  }, [aims, book, front]);
  return (
    <>
      <p>
        {run.whole
          ? `All ${run.of} sets were tried; ${run.kept} keep every check.`
          : `A search: ${run.tried} of ${run.of} sets were tried, and ${run.kept} of them keep every check. There may be a better one.`}
      </p>
      {front.length === 0 ? <p>No set that was tried keeps every check.</p> : null}
      {options === undefined ? null : (
        <Chart
          label={`${aims.map(({ cell }) => called(book, cell)).join(' against ')}`}
          options={options}
        />
      )}
      {front.length === 0 ? null : (
        <AnswerTable
          session={session}
          book={book}
          inputs={axes.map(({ cell }) => cell)}
          results={aims.map(({ cell }) => cell)}
          rows={front.map(({ comes, ...choice }) => ({
            ...choice,
            values: comes.map((number) => ({ kind: 'number', number })),
          }))}
        />
      )}
    </>
  );
}
