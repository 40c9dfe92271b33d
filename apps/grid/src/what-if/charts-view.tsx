import { contextOf } from '@kerfbook/studies';
import { type OpenWorkbook, showWithUnit } from '@kerfbook/workbook';
import * as Plot from '@observablehq/plot';
import { type ReactNode, useMemo } from 'react';
import { Chart } from './chart.tsx';
import { type PriceShare, type PriceShares, priceShares } from './price-shares.ts';
import { type FastenerTravel, type PanelYear, panelYear } from './year.ts';

interface ChartsViewProps {
  readonly book: OpenWorkbook;
  readonly changes: number;
}

/** What a workbook says anyway, drawn: how its panel moves through the year, and what its price is made of. */
export function ChartsView({ book, changes }: ChartsViewProps) {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook is read anew when something in it changed
  const [year, price] = useMemo(() => [panelYear(book), priceShares(book)], [book, changes]);
  if (year === undefined && price === undefined) {
    return (
      <p className="quiet plan-nothing">
        There is nothing to draw: this workbook has no movement of a panel and no price with its
        cost.
      </p>
    );
  }
  return (
    <>
      {year === undefined ? null : <YearCharts book={book} year={year} />}
      {price === undefined ? null : <PriceChart book={book} price={price} />}
    </>
  );
}

/** Words stay readable where a line runs behind them. */
const HALO = { stroke: 'var(--paper)', strokeWidth: 4 } as const;

/** A table that scrolls sideways where it has no room. */
function Scrolled({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys.
    <section className="whatif-scroll" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}

/** Steps at which an inch is marked; the first that leaves few enough marks is taken. */
const INCH_STEPS = [1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4] as const;
const MOST_MARKS = 8;

/** Whole marks of a rule between two lengths in inches; a metric axis finds its own. */
function marksBetween(
  least: number,
  most: number,
  marks = MOST_MARKS,
): readonly number[] | undefined {
  const step = INCH_STEPS.find((one) => (most - least) / one <= marks);
  if (step === undefined) return undefined;
  const [first, last] = [Math.floor(least / step), Math.ceil(most / step)];
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
}

function YearCharts({ book, year }: { readonly book: OpenWorkbook; readonly year: PanelYear }) {
  const { by, points, like, panel, fasteners } = year;
  const context = useMemo(() => contextOf(book, like), [book, like]);
  const written = useMemo(
    () => (length: number) => showWithUnit({ kind: 'number', number: length }, context),
    [context],
  );
  const isWide = points.every(({ wide }) => wide !== undefined);
  const drawn = isWide ? (panel ?? 'Width') : 'Moved';
  const options = useMemo((): Plot.PlotOptions => {
    const all = points.map(({ says, moved, wide }) => ({
      x: by === 'months' ? says.slice(0, 3) : says,
      y: wide ?? moved,
      moved,
    }));
    const heights = all.map(({ y }) => y);
    const [least, most] = [Math.min(...heights), Math.max(...heights)];
    const built = (all[0]?.y ?? 0) - (all[0]?.moved ?? 0);
    const [low, high] = [Math.min(least, built), Math.max(most, built)];
    const marks = book.units === 'us' ? marksBetween(low, high) : undefined;
    // Of twelve months the widest and the narrowest are written out; the table has the others.
    const said = all.filter(
      (_, i) => by === 'seasons' || i === heights.indexOf(least) || i === heights.indexOf(most),
    );
    return {
      marginLeft: 80,
      marginTop: 28,
      insetTop: 18,
      insetBottom: 18,
      x: { type: 'point', label: null, domain: all.map(({ x }) => x), padding: 0.6 },
      y: {
        label: drawn,
        grid: true,
        tickFormat: written,
        ...(marks === undefined
          ? {}
          : { ticks: [...marks], domain: [marks[0] ?? low, marks.at(-1) ?? high] }),
      },
      marks: [
        Plot.ruleY([built], { stroke: 'currentColor', strokeDasharray: '5 4' }),
        Plot.line(all, { x: 'x', y: 'y', stroke: 'currentColor', strokeWidth: 2 }),
        Plot.dot(all, { x: 'x', y: 'y', r: 4, fill: 'currentColor' }),
        Plot.text(said, {
          x: 'x',
          y: 'y',
          text: ({ y }: { y: number }) => written(y),
          dy: -14,
          fill: 'currentColor',
          ...HALO,
        }),
      ],
    };
  }, [book.units, by, drawn, points, written]);
  return (
    <section className="whatif-drawn" aria-labelledby="chart-year">
      <h3 id="chart-year">Movement through the year</h3>
      <Chart
        label={`${drawn} ${by === 'months' ? 'month by month' : 'in the dry and in the humid season'}: ${points.map(({ says, moved, wide }) => `${says} ${written(wide ?? moved)}`).join(', ')}`}
        options={options}
      />
      <p className="quiet">
        {by === 'months'
          ? 'Dashed: now. Each month is what the wood would come to if that month lasted.'
          : 'Dashed: on the day it is built.'}
      </p>
      <Scrolled label="The year in numbers">
        <table className="whatif-table">
          <thead>
            <tr>
              <th scope="col">{by === 'months' ? 'Month' : 'When'}</th>
              {isWide ? <th scope="col">{panel ?? 'Width'}</th> : null}
              <th scope="col">Moved from {by === 'months' ? 'now' : 'the build'}</th>
            </tr>
          </thead>
          <tbody>
            {points.map(({ says, moved, wide }) => (
              <tr key={says}>
                <th scope="row">{says}</th>
                {wide === undefined || !isWide ? null : <td>{written(wide)}</td>}
                <td>{written(moved)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolled>
      {fasteners.length === 0 ? null : (
        <FastenerChart fasteners={fasteners} isInches={book.units === 'us'} written={written} />
      )}
    </section>
  );
}

/** What fasteners have to travel, as bars, each with a line where their way ends. */
function FastenerChart({
  fasteners,
  isInches,
  written,
}: {
  readonly isInches: boolean;
  readonly fasteners: readonly FastenerTravel[];
  readonly written: (length: number) => string;
}) {
  const options = useMemo((): Plot.PlotOptions => {
    const all = fasteners.map((one) => ({ ...one }));
    const most = Math.max(...all.flatMap(({ need, reach }) => [need, reach]));
    const marks = isInches ? marksBetween(0, most, MOST_MARKS / 2) : undefined;
    return {
      height: 60 + 48 * all.length,
      marginLeft: 110,
      marginRight: 40,
      x: {
        label: 'Travel each way',
        grid: true,
        zero: true,
        tickFormat: written,
        ticks: marks === undefined ? 4 : [...marks],
      },
      y: { label: null, domain: all.map(({ says }) => says), padding: 0.4 },
      marks: [
        Plot.barX(all, { y: 'says', x: 'need', fill: 'currentColor', fillOpacity: 0.4 }),
        Plot.tickX(all, { y: 'says', x: 'reach', stroke: 'currentColor', strokeWidth: 3 }),
        Plot.ruleX([0]),
      ],
    };
  }, [fasteners, isInches, written]);
  return (
    <>
      <h4>Fasteners: what the top asks of them, and what they allow</h4>
      <Chart
        label={fasteners
          .map(
            ({ says, need, reach }) =>
              `${says}: ${written(need)} needed, ${written(reach)} allowed`,
          )
          .join('; ')}
        options={options}
      />
      <p className="quiet">The bar is the travel needed, the upright line the travel allowed.</p>
      <Scrolled label="Fasteners in numbers">
        <table className="whatif-table">
          <thead>
            <tr>
              <th scope="col">Fasteners</th>
              <th scope="col">Travel needed</th>
              <th scope="col">Travel allowed</th>
              <th scope="col">Enough</th>
            </tr>
          </thead>
          <tbody>
            {fasteners.map(({ says, need, reach }) => (
              <tr key={says}>
                <th scope="row">{says}</th>
                <td>{written(need)}</td>
                <td>{written(reach)}</td>
                <td>{reach >= need ? 'yes' : 'no'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolled>
    </>
  );
}

/** A row of the chart of a price: a part of it, or what the parts under it come to. */
interface Row {
  readonly key: string;
  readonly says: string;
  readonly amount: number;
  readonly isSum: boolean;
  /** It is part of the sum above it. */
  readonly isPart: boolean;
}

/** The parts of a price with the sum of each group that has several above them. */
function rowsOf(shares: readonly PriceShare[]): readonly Row[] {
  const groups = [...new Set(shares.map(({ group }) => group))];
  return groups.flatMap((group): Row[] => {
    const own = shares.filter((one) => one.group === group);
    const [only] = own;
    if (own.length === 1 && only !== undefined) {
      return [{ key: group, says: only.says, amount: only.amount, isSum: false, isPart: false }];
    }
    const amount = own.reduce((sum, one) => sum + one.amount, 0);
    return [
      { key: group, says: group, amount, isSum: true, isPart: false },
      ...own.map((one, i) => ({
        key: `${group} ${i}`,
        says: one.says,
        amount: one.amount,
        isSum: false,
        isPart: true,
      })),
    ];
  });
}

function PriceChart({ book, price }: { readonly book: OpenWorkbook; readonly price: PriceShares }) {
  const { units: system, currency } = book;
  const written = useMemo(
    () => (amount: number) =>
      showWithUnit({ kind: 'number', number: amount }, { quantity: 'money', system, currency }),
    [system, currency],
  );
  const share = (amount: number): string => `${((100 * amount) / price.price).toFixed(1)} %`;
  const rows = useMemo(() => rowsOf(price.shares), [price.shares]);
  const options = useMemo((): Plot.PlotOptions => {
    const called = new Map(rows.map(({ key, says }) => [key, says]));
    const bars = rows.filter(({ isSum }) => !isSum);
    const names = (isSum: boolean) =>
      Plot.axisY(
        rows.filter((row) => row.isSum === isSum).map(({ key }) => key),
        {
          tickFormat: (key: string) => called.get(key) ?? '',
          tickSize: 0,
          label: null,
          lineWidth: 15,
          textOverflow: 'ellipsis',
          ...(isSum ? { fontWeight: 700 } : {}),
        },
      );
    return {
      height: 20 + 24 * rows.length,
      marginBottom: 10,
      marginLeft: 190,
      marginRight: 80,
      // Each bar has its amount beside it; on a phone those of an axis ran into each other.
      x: { axis: null, grid: true, zero: true, nice: true, ticks: 4 },
      y: { label: null, domain: rows.map(({ key }) => key), padding: 0.25 },
      marks: [
        names(false),
        names(true),
        Plot.barX(bars, { y: 'key', x: 'amount', fill: 'currentColor', fillOpacity: 0.5 }),
        Plot.ruleX([0]),
        Plot.text(
          rows.filter(({ isSum }) => isSum),
          {
            y: 'key',
            x: 0,
            text: ({ amount }: Row) => written(amount),
            textAnchor: 'start',
            dx: 5,
            fill: 'currentColor',
            fontWeight: 700,
            ...HALO,
          },
        ),
        Plot.text(bars, {
          y: 'key',
          x: ({ amount }: Row) => Math.max(0, amount),
          text: ({ amount }: Row) => written(amount),
          textAnchor: 'start',
          dx: 5,
          fill: 'currentColor',
          ...HALO,
        }),
      ],
    };
  }, [rows, written]);
  return (
    <section className="whatif-drawn" aria-labelledby="chart-price">
      <h3 id="chart-price">What the price is made of</h3>
      <Chart
        label={`What the price of ${written(price.price)} is made of: ${rows
          .filter(({ isSum }) => !isSum)
          .map(({ says, amount }) => `${says} ${written(amount)}`)
          .join(', ')}`}
        options={options}
      />
      <Scrolled label="The price in numbers">
        <table className="whatif-table whatif-shares">
          <thead>
            <tr>
              <th scope="col">For</th>
              <th scope="col">Amount</th>
              <th scope="col">Of the price</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ key, says, amount, isPart }) => (
              <tr key={key} className={isPart ? 'whatif-part-of' : 'whatif-sum'}>
                <th scope="row">{says}</th>
                <td>{written(amount)}</td>
                <td>{share(amount)}</td>
              </tr>
            ))}
            <tr className="whatif-sum">
              <th scope="row">Price before tax</th>
              <td>{written(price.price)}</td>
              <td>{share(price.price)}</td>
            </tr>
          </tbody>
        </table>
      </Scrolled>
    </section>
  );
}
