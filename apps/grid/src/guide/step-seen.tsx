import { buildScene, chooseEye } from '@kerfbook/drawing';
import { type FiguresOf, figureOf, GUIDE_STYLES, guideSections } from '@kerfbook/guide';
import { useLayoutEffect, useMemo, useRef } from 'react';
import { type Drafts, withDrafts } from './drafts.ts';
import type { Seen } from './guide-page.tsx';
import type { StepRow, StepsTable } from './steps-table.ts';

interface StepSeenProps {
  readonly seen: Seen;
  readonly table: StepsTable;
  readonly step: StepRow;
  /** What is being written in its fields. */
  readonly drafts: Drafts;
}

/** A step as readers get it: its figure, its words with the numbers they have at this size, its caution. */
export function StepSeen({ seen, table, step, drafts }: StepSeenProps) {
  const { book, plan } = seen;
  // Looked for once for the parts there are: that takes longer than a key.
  const eye = useMemo(() => chooseEye(buildScene(plan.parts.parts)), [plan.parts]);
  const html = useMemo(() => {
    const steps = plan.steps.filter(({ at }) => at.sheet === table.sheet && at.row === step.row);
    if (steps.length === 0) return undefined;
    // Of one step alone: a plan may have hundreds, and this one is drawn anew with every change.
    const figures: FiguresOf = (source, its, options) =>
      new Map(
        its.steps.flatMap((one) => {
          const isThis = one.at.sheet === table.sheet && one.at.row === step.row;
          const figure = isThis ? figureOf(source, its, one, options) : undefined;
          return figure === undefined ? [] : [[one.key, figure]];
        }),
      );
    const ids = steps.map(({ key }) => `step-${key}`);
    const source = withDrafts(book, table, step.row, drafts);
    return guideSections(source, { parts: ['steps'], plan: 'later', figures, eye })
      .filter(({ id }) => ids.includes(id))
      .map((one) => one.html)
      .join('');
  }, [book, plan, table, step.row, drafts, eye]);
  return (
    <section className="plan-seen" aria-label="As readers get it">
      <h2>As readers get it</h2>
      {html === undefined ? (
        <p className="quiet">
          At this size nobody gets this step: what stands under "Only when" comes to no.
        </p>
      ) : (
        <Pages html={html} />
      )}
    </section>
  );
}

let styles: CSSStyleSheet | undefined;

/** The sheet of the readers' page, made once. */
function pageStyles(): CSSStyleSheet {
  if (styles === undefined) {
    styles = new CSSStyleSheet();
    styles.replaceSync(GUIDE_STYLES);
  }
  return styles;
}

/** Parts of the readers' page with the look they have there: nothing of it reaches this page, or the other way. */
function Pages({ html }: { readonly html: string }) {
  const holder = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const { current } = holder;
    if (current === null) return;
    const root = current.shadowRoot ?? current.attachShadow({ mode: 'open' });
    root.adoptedStyleSheets = [pageStyles()];
    const page = document.createElement('div');
    page.className = 'guide';
    // All words in it were escaped where it was made; a script in it would not run.
    page.innerHTML = html;
    root.replaceChildren(page);
  }, [html]);
  return <div ref={holder} className="plan-pages" />;
}
