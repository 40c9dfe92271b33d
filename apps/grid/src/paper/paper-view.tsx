import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { useSession } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';
import { Pages } from './blocks.tsx';
import { fieldSize, PAPERS, type Page, type PaperName, pageSize } from './paper.ts';
import { sheetBlocks } from './sheet-blocks.tsx';

interface PaperViewProps {
  readonly session: Session;
  readonly onClose: () => void;
}

/** Smaller letters than this cannot be read at arm's length: what is wider goes off the page's edge. */
const LEAST_SCALE = 0.5;

/** Puts the workbook on paper: what goes on it, and every page as it will come out (G62). */
export default function PaperView({ session, onClose }: PaperViewProps) {
  const { book } = session;
  const [page, setPage] = useState<Page>({
    paper: book.units === 'us' ? 'letter' : 'a4',
    lying: false,
  });
  const [all, setAll] = useState(false);
  const [formulas, setFormulas] = useState(session.state.value.formulas === true);
  const [remarks, setRemarks] = useState(false);
  const [edges, setEdges] = useState(false);
  const [fits, setFits] = useState(true);
  usePageRule(page);
  const { proving } = useSession(session);
  const content = useMemo(() => {
    const sheets = all ? book.sheets().map(({ id }) => id) : [session.at.sheet];
    return sheets.map((sheet) => sheetBlocks(book, { sheet, formulas, remarks, edges, proving }));
  }, [book, all, session, formulas, remarks, edges, proving]);
  const blocks = useMemo(() => content.flatMap((sheet) => sheet.blocks), [content]);
  const widest = Math.max(1, ...content.map(({ width }) => width));
  const scale = fits ? Math.max(LEAST_SCALE, Math.min(1, fieldSize(page).width / widest)) : 1;
  const tooWide = widest * scale > fieldSize(page).width * 1.01;
  return (
    <PaperDesk
      title="Print"
      page={page}
      onPage={setPage}
      onClose={onClose}
      choices={
        <fieldset>
          <legend>What comes on paper</legend>
          <Tick says="Every sheet" on={all} onTick={setAll} />
          <Tick says="Formulas instead of results" on={formulas} onTick={setFormulas} />
          <Tick says="Remarks" on={remarks} onTick={setRemarks} />
          <Tick says="Letters and numbers at the edges" on={edges} onTick={setEdges} />
          <Tick says="Made to fit the width" on={fits} onTick={setFits} />
          {tooWide ? (
            <p className="complaint" role="alert">
              This is wider than the page and would be cut off at the right. Lay the page on its
              side, make it fit the width, or hide columns.
            </p>
          ) : null}
        </fieldset>
      }
    >
      <Pages page={page} blocks={blocks} foot={book.title} scale={scale} />
    </PaperDesk>
  );
}

interface TickProps {
  readonly says: string;
  readonly on: boolean;
  readonly onTick: (on: boolean) => void;
}

export function Tick({ says, on, onTick }: TickProps) {
  return (
    <label>
      <input type="checkbox" checked={on} onChange={(event) => onTick(event.target.checked)} />
      {says}
    </label>
  );
}

interface PaperDeskProps {
  readonly title: string;
  readonly page: Page;
  readonly onPage: (page: Page) => void;
  readonly onClose: () => void;
  /** What can be chosen of the content. */
  readonly choices: ReactNode;
  /** The pages. */
  readonly children: ReactNode;
}

/** Pages to look at, with the paper they are for and the way to the printer. */
export function PaperDesk({ title, page, onPage, onClose, choices, children }: PaperDeskProps) {
  const first = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    first.current?.focus();
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') onClose();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [onClose]);
  return (
    <section className="paper-view" role="dialog" aria-modal="true" aria-label={title}>
      <div className="paper-choices">
        <header className="paper-head">
          <h2 ref={first} tabIndex={-1}>
            {title}
          </h2>
          <p className="actions">
            <button type="button" className="button button-main" onClick={() => window.print()}>
              Print
            </button>
            <button type="button" className="button" onClick={onClose}>
              Close
            </button>
          </p>
        </header>
        <fieldset>
          <legend>Paper</legend>
          {(Object.keys(PAPERS) as PaperName[]).map((paper) => (
            <label key={paper}>
              <input
                type="radio"
                name="paper"
                checked={page.paper === paper}
                onChange={() => onPage({ ...page, paper })}
              />
              {PAPERS[paper].says}
            </label>
          ))}
          <Tick says="On its side" on={page.lying} onTick={(lying) => onPage({ ...page, lying })} />
        </fieldset>
        {choices}
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys. */}
      <section className="paper-desk" aria-label="Pages" tabIndex={0}>
        {children}
      </section>
    </section>
  );
}

/** Tells the printer the size of the paper, as long as there are pages to print. */
export function usePageRule(page: Page): void {
  const { width, height } = pageSize(page);
  useEffect(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(`@page { size: ${width}mm ${height}mm; margin: 0; }`);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== sheet);
    };
  }, [width, height]);
}
