import {
  type ChangeEvent,
  type CSSProperties,
  type ReactNode,
  useEffect,
  useId,
  useRef,
  useState,
} from 'react';
import { useFit } from './fit-page.ts';
import { PAPERS, type Page, type PaperName, pageSize } from './paper.ts';

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

/** The paper of a workbook to begin with: Letter where it counts in inches. */
export function usePaper(units: 'us' | 'metric'): readonly [Page, (page: Page) => void] {
  const [page, setPage] = useState<Page>({
    paper: units === 'us' ? 'letter' : 'a4',
    landscape: false,
  });
  usePageRule(page);
  return [page, setPage];
}

interface PaperDeskProps {
  readonly title: string;
  readonly page: Page;
  readonly onPage: (page: Page) => void;
  /** Where it is left by Escape and a button; what the top line leads to and from has neither. */
  readonly onClose?: () => void;
  /** What can be chosen of the content. */
  readonly choices: ReactNode;
  /** What is chosen of it, in a few words: they stand for the choices where these are folded away. */
  readonly chosen: string;
  /** There is nothing on the pages: they are not printed. */
  readonly isBare?: boolean;
  /** Prints what is a page of its own; this page is printed where it is left out. */
  readonly onPrint?: () => void;
  /** It never lies on its side: there is no choice of it. */
  readonly isUpright?: boolean;
  /** What has to be known before one prints, over the pages. */
  readonly notes?: ReactNode;
  /** The pages. */
  readonly children: ReactNode;
}

/** Pages to look at, with the paper they are for and the way to the printer. */
export function PaperDesk(props: PaperDeskProps) {
  const { title, page: asked, onPage, onClose, choices, chosen, isBare, notes, children } = props;
  const { onPrint = () => window.print(), isUpright = false } = props;
  const page = isUpright ? { ...asked, landscape: false } : asked;
  const first = useRef<HTMLHeadingElement>(null);
  // On a desk's screen they stand beside the pages and are never folded.
  const [open, setOpen] = useState(false);
  const fold = useId();
  const { desk, zoom, near, turn } = useFit(pageSize(page).width);
  const size = { '--page-zoom': zoom } as CSSProperties;
  useEffect(() => {
    first.current?.focus();
    if (onClose === undefined) return undefined;
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') onClose();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [onClose]);
  /** On other paper, or for somebody else, the pages are others: one begins with the first. A tick only adds or takes. */
  const toFirst = ({ target }: ChangeEvent<Element>): void => {
    if (!(target instanceof HTMLInputElement) || target.type !== 'radio') return;
    if (desk.current !== null) desk.current.scrollTop = 0;
  };
  return (
    <section className="paper-view" aria-label={title}>
      <div className="paper-choices" onChange={toFirst}>
        <header className="paper-head">
          <div>
            <h2 ref={first} tabIndex={-1}>
              {title}
            </h2>
            <p className="paper-chosen">
              {PAPERS[page.paper].says}, {page.landscape ? 'landscape' : 'portrait'}, {chosen}
            </p>
          </div>
          <p className="actions">
            <button
              type="button"
              className="button paper-turn"
              aria-expanded={open}
              aria-controls={fold}
              onClick={() => setOpen(!open)}
            >
              Choices
            </button>
            {near === undefined ? null : (
              <button type="button" className="button" onClick={turn}>
                {near ? 'Fit' : 'Zoom in'}
              </button>
            )}
            {isBare === true ? null : (
              <button type="button" className="button button-main" onClick={onPrint}>
                Print
              </button>
            )}
            {onClose === undefined ? null : (
              <button type="button" className="button" onClick={onClose}>
                Close
              </button>
            )}
          </p>
        </header>
        <div id={fold} className="paper-fold" data-open={open}>
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
          </fieldset>
          {isUpright ? null : (
            <fieldset>
              <legend>Orientation</legend>
              {[false, true].map((landscape) => (
                <label key={String(landscape)}>
                  <input
                    type="radio"
                    name="lies"
                    checked={page.landscape === landscape}
                    onChange={() => onPage({ ...page, landscape })}
                  />
                  {landscape ? 'Landscape' : 'Portrait'}
                </label>
              ))}
            </fieldset>
          )}
          {choices}
        </div>
      </div>
      {/* biome-ignore-start lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys. */}
      <section ref={desk} className="paper-desk" aria-label="Pages" tabIndex={0} style={size}>
        {notes === undefined ? null : <div className="paper-notes">{notes}</div>}
        {children}
      </section>
      {/* biome-ignore-end lint/a11y/noNoninteractiveTabindex: as above. */}
    </section>
  );
}

/** Tells the printer the size of the paper, as long as there are pages to print. */
function usePageRule(page: Page): void {
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
