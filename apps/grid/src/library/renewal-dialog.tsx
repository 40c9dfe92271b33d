import { type Bookcase, breath, writeTrouble } from '@kerfbook/keeping';
import {
  dismissNews,
  keepBase,
  type News,
  newsOf,
  type TemplateHere,
} from '@kerfbook/keeping/shelf';
import { LISTED_KINDS, Renewal } from '@kerfbook/workbook';
import { useEffect, useMemo, useState } from 'react';
import type { Session } from '../session/session.ts';
import { Afterwards, useChoosing } from './choosing.tsx';
import { CompareBody } from './compare-dialog.tsx';
import { Dialog } from './dialog.tsx';
import { Folded } from './folded.tsx';
import { counted, countedKinds, MET_KINDS } from './kinds.ts';
import { MetList, type MetWords } from './met-list.tsx';
import { Outcome } from './outcome.tsx';
import './renewal.css';

interface RenewalDialogProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly onClose: () => void;
}

type Newer = News & { readonly kind: 'newer' };

/** How far the look at the template has come. */
type Looked =
  | { readonly is: 'none'; readonly says: string; readonly template?: TemplateHere }
  | { readonly is: 'new'; readonly news: Newer; readonly renewal: Renewal };

/** What is new in the template that the workbook came from, and taking it over. */
export default function RenewalDialog({ session, bookcase, onClose }: RenewalDialogProps) {
  const [looked, setLooked] = useState<Looked>();
  const [comparing, setComparing] = useState<TemplateHere>();
  useEffect(() => {
    let here = true;
    lookAt(session, bookcase).then(
      (found) => {
        if (here) setLooked(found);
      },
      (error: unknown) => {
        if (here) setLooked({ is: 'none', says: writeTrouble(error) });
      },
    );
    return () => {
      here = false;
    };
  }, [session, bookcase]);
  if (comparing !== undefined) {
    return (
      <Dialog title="Compare" onClose={onClose}>
        <CompareBody
          session={session}
          bookcase={bookcase}
          start={{ of: comparing.of, key: comparing.key }}
          onClose={onClose}
        />
      </Dialog>
    );
  }
  return (
    <Dialog title="New in the template" onClose={onClose}>
      {looked === undefined ? <p className="quiet">Looking at the template …</p> : null}
      {looked?.is === 'none' ? (
        <>
          <p>{looked.says}</p>
          {looked.template === undefined ? null : (
            <p className="actions">
              <Compare template={looked.template} onCompare={setComparing} />
            </p>
          )}
        </>
      ) : null}
      {looked?.is === 'new' ? (
        <Found
          {...looked}
          session={session}
          bookcase={bookcase}
          onCompare={setComparing}
          onClose={onClose}
        />
      ) : null}
    </Dialog>
  );
}

async function lookAt(session: Session, bookcase: Bookcase): Promise<Looked> {
  const news = await newsOf(bookcase);
  if (news.kind === 'none') return { is: 'none', ...news };
  // Four workbooks are worked out: the dialog is seen before that.
  await breath();
  const made = Renewal.of(news.base, news.now, session.settled().document());
  if (!made.ok) return { is: 'none', says: made.says, template: news.template };
  return { is: 'new', news, renewal: made.renewal };
}

interface CompareProps {
  readonly template: TemplateHere;
  readonly onCompare: (template: TemplateHere) => void;
}

function Compare({ template, onCompare }: CompareProps) {
  return (
    <button type="button" className="button" onClick={() => onCompare(template)}>
      Compare with "{template.title}"
    </button>
  );
}

interface FoundProps extends RenewalDialogProps {
  readonly news: Newer;
  readonly renewal: Renewal;
  readonly onCompare: (template: TemplateHere) => void;
}

function Found({ session, bookcase, news, renewal, onCompare, onClose }: FoundProps) {
  const { met, taken, kept } = renewal;
  const { choices, choose, many, showAll, weighings, now } = useChoosing(renewal, met, 'mine');
  const [says, setSays] = useState<string>();
  const words = useMemo(() => wordsOf(news.title), [news.title]);
  const told = useMemo(() => renewal.told(choices), [renewal, choices]);
  const fromTemplate = met.filter(({ key }) => choices.get(key) === 'theirs').length;
  const brings = taken.length + fromTemplate;
  const refused = session.mayChange ? session.book.lock()?.says : VIEW_ONLY;
  const take = async (): Promise<void> => {
    const done = renewal.settle(choices);
    if (!done.ok) return setSays(done.says);
    try {
      await keepBase(bookcase, news.state);
    } catch (error) {
      return setSays(`Nothing was changed. ${writeTrouble(error)}`);
    }
    const said = `Brought in ${counted(brings, 'change')} from the template "${news.title}".`;
    const become = { ...done.document, lineage: news.lineage };
    const result = session.apply({ do: 'become', book: become }, said);
    if (!result.ok) return setSays(result.says);
    // Taken, it is no news any more, also where it is undone: the menu leads back to it.
    await dismissNews(bookcase, news.state.sign).catch(() => undefined);
    onClose();
  };
  if (met.length + taken.length === 0) {
    return <p>"{news.title}" was changed, but in nothing that this workbook has from it.</p>;
  }
  return (
    <>
      <p>{summary(renewal, news)}</p>
      {refused === undefined ? null : <p className="complaint">{refused}</p>}
      {met.length === 0 ? null : (
        <section className="renewal-part" aria-labelledby="renewal-met">
          <h3 id="renewal-met">Changed by you and in the template</h3>
          <p className="quiet">Choose which one stands. Yours stays where you choose nothing.</p>
          <MetList
            met={met}
            words={words}
            choices={choices}
            onChoose={choose}
            each={weighings.each}
            many={many}
            onMore={showAll}
          />
        </section>
      )}
      {taken.length === 0 ? null : (
        <section className="renewal-part" aria-labelledby="renewal-taken">
          <h3 id="renewal-taken">Only changed in the template: brought in</h3>
          <Folded all={taken} before="Now" after="Then" />
        </section>
      )}
      {kept.length === 0 ? null : (
        <section className="renewal-part" aria-labelledby="renewal-kept">
          <h3 id="renewal-kept">Only changed by you: stays</h3>
          <Folded all={kept} before="In the template" after="Yours" />
        </section>
      )}
      <Afterwards told={told} />
      <Outcome now={now} weighings={weighings} />
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      <p className="actions renewal-end">
        {refused === undefined ? (
          <button
            type="button"
            className="button button-main"
            disabled={brings === 0}
            onClick={() => void take()}
          >
            Bring in {counted(brings, 'change')}
          </button>
        ) : null}
        <button type="button" className="button" onClick={onClose}>
          Cancel
        </button>
        <Compare template={news.template} onCompare={onCompare} />
      </p>
    </>
  );
}

const wordsOf = (template: string): MetWords => ({
  kinds: MET_KINDS,
  mine: 'Mine',
  theirs: `From "${template}"`,
  keepAll: (many) => `Keep all ${many} of mine`,
  takeAll: (many) => `Take all ${many} from the template`,
});

const VIEW_ONLY = 'View only: this workbook is open elsewhere. Close it there to change it here.';

function summary({ met, taken }: Renewal, { title }: Newer): string {
  const brings =
    taken.length === 0
      ? ''
      : ` It brings ${countedKinds(taken, LISTED_KINDS)} where you changed nothing.`;
  const both =
    met.length === 0
      ? ' Nothing of it meets what you changed.'
      : ` In ${counted(met.length, 'place')} you changed the same.`;
  return `"${title}" was improved since this workbook was made from it.${brings}${both} Bringing it in is one step, which you can undo.`;
}
