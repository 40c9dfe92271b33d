import { Fragment, type ReactNode, useLayoutEffect, useRef, useState } from 'react';
import { fieldSize, type Measured, type Page, pageSize, pageStarts } from './paper.ts';
import './paper.css';

/** A table whose rows may come on several pages; its head comes on each. */
export interface TableShape {
  readonly id: string;
  readonly says: string;
  readonly columns: ReactNode;
  readonly head: ReactNode;
  readonly className?: string;
}

/** A piece of paper content: a row of a table, or something of its own. */
export interface Block {
  readonly key: string;
  readonly node: ReactNode;
  readonly table?: TableShape;
  readonly keep?: boolean;
  readonly fresh?: boolean;
}

interface PagesProps {
  readonly page: Page;
  readonly blocks: readonly Block[];
  /** Stands at the foot of each page beside its number. */
  readonly foot: string;
  /** How large everything in the field is drawn; 1 as it is. */
  readonly scale?: number;
}

/** Content laid out on pages: what is seen is what is printed, page by page (G62). */
export function Pages({ page, blocks, foot, scale = 1 }: PagesProps) {
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
  return (
    <div className="pages">
      <div ref={measure} className="page-measure" aria-hidden="true" inert style={style}>
        <div className="page-field" style={{ zoom: scale }}>
          <Flow blocks={blocks} marked />
        </div>
      </div>
      {starts.map((from, i) => (
        <OnePage
          key={from}
          page={page}
          scale={scale}
          foot={`${foot} · page ${i + 1} of ${starts.length}`}
        >
          <Flow blocks={blocks.slice(from, starts[i + 1])} />
        </OnePage>
      ))}
    </div>
  );
}

interface OnePageProps {
  readonly page: Page;
  readonly scale: number;
  readonly foot: string;
  readonly children: ReactNode;
}

function OnePage({ page, scale, foot, children }: OnePageProps) {
  const { width, height } = pageSize(page);
  return (
    <section
      className="page"
      aria-label={foot}
      style={{ width: `${width}mm`, height: `${height}mm` }}
    >
      <div className="page-field" style={{ zoom: scale }}>
        {children}
      </div>
      <footer className="page-foot">{foot}</footer>
    </section>
  );
}

interface FlowProps {
  readonly blocks: readonly Block[];
  /** Pieces say which they are, so that they can be measured. */
  readonly marked?: boolean;
}

/** Pieces one under the other; rows of one table that follow each other are one table. */
function Flow({ blocks, marked = false }: FlowProps) {
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
  return blocks.map(({ table: shape, keep, fresh }) => {
    const about = {
      ...(keep === undefined ? {} : { keep }),
      ...(fresh === undefined ? {} : { fresh }),
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
