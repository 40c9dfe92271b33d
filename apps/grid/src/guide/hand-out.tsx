import type { Paper } from '@kerfbook/guide';
import { fileNameFor } from '@kerfbook/keeping';
import type { At, Compared, Guide } from '@kerfbook/workbook';
import { useEffect, useId, useState } from 'react';
import { Result } from '../library/compare-dialog.tsx';
import { printPage } from '../paper/printing.ts';
import { useShopPlan } from '../shop/shop-sheets.ts';
import { download } from '../storage/download.ts';
import { guideEdit } from './guide-head.ts';
import type { Seen } from './guide-page.tsx';
import { dayInWords, type PageMade, pageForPreview, pageToPrint, readersPageOf } from './pages.ts';
import { publishedNow, sinceHandedOut } from './published.ts';

interface HandOutProps {
  readonly seen: Seen;
  readonly onGo: (at: At) => void;
}

type Published = NonNullable<Guide['published']>;

/** The plan as a reader sees it on a phone, and the ways in which it is handed out. */
export function HandOut({ seen, onGo }: HandOutProps) {
  const { session, book, plan } = seen;
  const paper = useId();
  const [onPaper, setOnPaper] = useState<Paper>(book.units === 'us' ? 'letter' : 'a4');
  const [says, setSays] = useState<string>();
  const [asks, setAsks] = useState(false);
  const { shop } = useShopPlan(session, seen.changes);
  const { published } = book.head.guide ?? {};
  const isBare = plan.steps.length === 0;
  const save = async (): Promise<void> => {
    setSays(undefined);
    const made = await readersPageOf(session.settled());
    if (!made.ok) {
      setSays(made.says);
      return;
    }
    const name = fileNameFor(book.head.guide?.title ?? book.title);
    download(name.replace(/\.kerfbook\.json$/, '.html'), made.page, 'text/html');
    setAsks(session.mayChange);
  };
  const count = async (): Promise<void> => {
    const now = await publishedNow(book, today());
    if (now === undefined) {
      setSays('This browser cannot pack what was handed out. Use a newer one to count it.');
      return;
    }
    const done = session.apply(
      guideEdit(book, { published: now }),
      `Counted as handed out: number ${now.number}.`,
    );
    if (done.ok) setAsks(false);
  };
  return (
    <div className="plan-out">
      <div className="plan-out-ways">
        {isBare ? (
          <p className="quiet">
            There is no step yet: readers get what one needs, the cut list and the cutting plan.
          </p>
        ) : null}
        {says === undefined ? null : (
          <p className="complaint" role="alert">
            {says}
          </p>
        )}
        <section className="plan-part">
          <h2>The readers’ page</h2>
          <p className="quiet">
            One file that any web host can serve, or none: readers choose their size in it, see the
            steps follow, tick off and print. Nothing is sent anywhere.
          </p>
          <p className="actions">
            <button
              type="button"
              className="button button-main"
              onClick={() => void save().catch((error: unknown) => setSays(notSaved(error)))}
            >
              Save the readers’ page
            </button>
          </p>
        </section>
        <section className="plan-part">
          <h2>On paper</h2>
          <div className="plan-beside">
            <label htmlFor={paper}>Paper</label>
            <select
              id={paper}
              className="field"
              value={onPaper}
              onChange={({ currentTarget: { value } }) =>
                setOnPaper(value === 'a4' ? 'a4' : 'letter')
              }
            >
              <option value="letter">Letter</option>
              <option value="a4">A4</option>
            </select>
            <button
              type="button"
              className="button"
              onClick={() => {
                printPage(
                  pageToPrint(session.settled(), { paper: onPaper, plan: shop }),
                  'The guide to print',
                );
                setAsks(session.mayChange);
              }}
            >
              Print the guide
            </button>
          </div>
        </section>
        {asks ? (
          <div className="plan-asks" role="status">
            <p>Count this as handed out? Then this page tells what differs from it, from now on.</p>
            <p className="actions">
              <button type="button" className="button" onClick={() => void count()}>
                Count it as number {(published?.number ?? 0) + 1}
              </button>
              <button type="button" className="button" onClick={() => setAsks(false)}>
                Not yet
              </button>
            </p>
          </div>
        ) : null}
        <Since seen={seen} published={published} onGo={onGo} />
      </div>
      <Preview seen={seen} />
    </div>
  );
}

const notSaved = (error: unknown): string =>
  `The readers’ page was not saved: ${error instanceof Error ? error.message : String(error)}`;

/** The day it is here, as a workbook keeps it. */
function today(): string {
  const now = new Date();
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

interface SinceProps extends HandOutProps {
  readonly published: Published | undefined;
}

/** What differs from the plan that was handed out last. */
function Since({ seen, published, onGo }: SinceProps) {
  const { book, changes } = seen;
  const [found, setFound] = useState<{
    readonly of: string;
    readonly compared?: Compared;
    readonly says?: string;
  }>();
  const of = `${published?.number} ${changes}`;
  useEffect(() => {
    if (published === undefined) return undefined;
    let here = true;
    sinceHandedOut(book, published).then(
      (done) => {
        if (!here) return;
        setFound(done.ok ? { of, compared: done.compared } : { of, says: done.says });
      },
      (error: unknown) => {
        if (here) setFound({ of, says: `What differs could not be told: ${String(error)}` });
      },
    );
    return () => {
      here = false;
    };
  }, [book, published, of]);
  if (published === undefined) {
    return (
      <section className="plan-part">
        <h2>Handed out</h2>
        <p className="quiet">Not yet, or not counted so.</p>
      </section>
    );
  }
  return (
    <section className="plan-part">
      <h2>What differs from the one handed out last</h2>
      <p>
        Number {published.number}, {dayInWords(new Date(`${published.day}T00:00`))}.
      </p>
      {found?.says === undefined ? (
        <Result
          result={found?.of === of ? found.compared : undefined}
          first={`Number ${published.number}`}
          second="Now"
          onGo={onGo}
        />
      ) : (
        <p className="complaint">{found.says}</p>
      )}
    </section>
  );
}

/** The page in a frame as wide as a phone, once it is made. */
function Preview({ seen }: { readonly seen: Seen }) {
  const { session } = seen;
  const [made, setMade] = useState<PageMade>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within.
  useEffect(() => {
    // The words that it is being made are seen before that.
    const later = setTimeout(() => setMade(pageForPreview(session.settled())), 50);
    return () => clearTimeout(later);
  }, [session, seen.changes]);
  return (
    <section className="plan-preview" aria-label="As a reader sees it on a phone">
      <h2>As a reader sees it on a phone</h2>
      {made === undefined ? <p className="quiet">Making the page …</p> : null}
      {made?.ok === false ? <p className="complaint">{made.says}</p> : null}
      {made?.ok === true ? <iframe title="The plan on a phone" srcDoc={made.page} /> : null}
    </section>
  );
}
