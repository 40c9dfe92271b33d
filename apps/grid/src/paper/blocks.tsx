import {
  type CSSProperties,
  Fragment,
  type ReactNode,
  useLayoutEffect,
  useRef,
  useState,
} from 'react';
import type { PageHead } from './page-head.ts';
import { fieldSize, HEAD, type Measured, type Page, pageSize, pageStarts } from './paper.ts';
import './paper.css';

/** A table whose rows may come on several pages; its head comes on each. */
export interface TableShape {
  readonly id: string;
  readonly says: string;
  readonly columns: ReactNode;
  readonly head: ReactNode;
  readonly className?: string;
  /** mm; the whole of the field where left out. */
  readonly width?: number;
}

/** A piece of paper content: a row of a table, or something of its own. */
export interface Block {
  readonly key: string;
  readonly node: ReactNode;
  readonly table?: TableShape;
  readonly keep?: boolean;
  readonly together?: boolean;
  readonly section?: boolean;
}

interface PagesProps {
  readonly page: Page;
  readonly blocks: readonly Block[];
  /** Stands at the head of each page: the workbook, whom it is for, the day, the state. */
  readonly head: PageHead;
  /** Stands at the foot of each page beside its number: what lengths are counted in. */
  readonly foot: string;
}

/** Content laid out on pages: what is seen is what is printed, page by page (G62). */
export function Pages({ page, blocks, head, foot }: PagesProps) {
  const field = fieldSize(page);
  const measure = useRef<HTMLDivElement>(null);
  const [starts, setStarts] = useState<readonly number[]>([]);
  useLayoutEffect(() => {
    const element = measure.current;
    if (element === null) return;
    let current = true;
    const lay = (): void => {
      if (current) setStarts(pageStarts(measured(element, blocks), field.height));
    };
    lay();
    // Letters of a font that comes later have other heights.
    void document.fonts.ready.then(lay);
    return () => {
      current = false;
    };
  }, [blocks, field.height]);
  const style = { width: `${field.width}mm` };
  // What is drawn keeps within a part of the page, or pages before it would be left nearly empty.
  const high = { '--field-high': `${field.height}mm` } as CSSProperties;
  return (
    <div className="pages" style={high}>
      <div ref={measure} className="page-measure" aria-hidden="true" inert style={style}>
        <div className="page-field">
          <Flow blocks={blocks} marked />
        </div>
      </div>
      {starts.map((from, i) => (
        <OnePage
          key={from}
          page={page}
          head={head}
          number={`Page ${i + 1} of ${starts.length}`}
          foot={foot}
        >
          <Flow blocks={blocks.slice(from, starts[i + 1])} />
        </OnePage>
      ))}
    </div>
  );
}

interface OnePageProps {
  readonly page: Page;
  readonly head: PageHead;
  readonly number: string;
  readonly foot: string;
  readonly children: ReactNode;
}

function OnePage({ page, head, number, foot, children }: OnePageProps) {
  const { width, height } = pageSize(page);
  return (
    <section
      className="page kb-print"
      aria-label={number}
      style={{ width: `${width}mm`, height: `${height}mm` }}
    >
      <header className="page-head" style={{ height: `${HEAD}mm` }}>
        <strong>{head.title}</strong>
        <span>{head.beside}</span>
        <span>{head.under}</span>
        <span>{head.day}</span>
      </header>
      <div className="page-field">{children}</div>
      <footer className="page-foot">
        <span>{foot}</span>
        <span>{number}</span>
      </footer>
    </section>
  );
}

interface FlowProps {
  readonly blocks: readonly Block[];
  /** Pieces say which they are, so that they can be measured. */
  readonly marked?: boolean;
}

/** Pieces one under the other; rows of one table that follow each other are one table. */
export function Flow({ blocks, marked = false }: FlowProps) {
  const flow: ReactNode[] = [];
  for (let at = 0; at < blocks.length; ) {
    const block = blocks[at];
    if (block === undefined) break;
    const { table } = block;
    if (table === undefined) {
      flow.push(
        <div key={block.key} className="page-block" data-piece={marked ? block.key : undefined}>
          {block.node}
        </div>,
      );
      at += 1;
      continue;
    }
    let end = at;
    while (blocks[end]?.table?.id === table.id) end += 1;
    flow.push(
      <table
        key={block.key}
        className={`page-table ${table.className ?? ''}`}
        aria-label={table.says}
        style={table.width === undefined ? undefined : { inlineSize: `${table.width}mm` }}
      >
        {table.columns}
        <thead data-head={marked ? block.key : undefined}>{table.head}</thead>
        <tbody>
          {blocks.slice(at, end).map(({ key, node }) => (
            <Fragment key={key}>{node}</Fragment>
          ))}
        </tbody>
      </table>,
    );
    at = end;
  }
  return flow;
}

const MM_PER_PX = 25.4 / 96;

/** Heights of the pieces as they are drawn in the measuring column, mm. */
function measured(element: HTMLElement, blocks: readonly Block[]): Measured[] {
  const heads = [...element.querySelectorAll('thead')].map(heightOf);
  const rows = [...element.querySelectorAll('tbody > tr')].map(heightOf);
  const others = [...element.querySelectorAll('[data-piece]')].map(heightOf);
  let [row, other, table] = [0, 0, -1];
  let last: string | undefined;
  return blocks.map(({ table: shape, keep, together, section }) => {
    const about = {
      ...(keep === undefined ? {} : { keep }),
      ...(together === undefined ? {} : { together }),
      ...(section === undefined ? {} : { section }),
    };
    if (shape === undefined) {
      last = undefined;
      other += 1;
      return { ...about, height: others[other - 1] ?? 0 };
    }
    const first = shape.id !== last;
    if (first) table += 1;
    last = shape.id;
    row += 1;
    const head = heads[table] ?? 0;
    const height = rows[row - 1] ?? 0;
    // The first row stands under the head already; where a page begins with it, that is all there is.
    return first ? { ...about, height: height + head } : { ...about, height, repeats: head };
  });
}

const heightOf = (element: Element): number =>
  (element.getBoundingClientRect().height + marginsOf(element)) * MM_PER_PX;

function marginsOf(element: Element): number {
  const { marginBlockStart, marginBlockEnd } = getComputedStyle(element);
  return (Number.parseFloat(marginBlockStart) || 0) + (Number.parseFloat(marginBlockEnd) || 0);
}
