import { type Bookcase, breath } from '@kerfbook/keeping';
import { differing } from '@kerfbook/keeping/shelf';
import { ClubRefused } from '@kerfbook/protocol';
import { type BookDocument, Renewal } from '@kerfbook/workbook';
import { useCallback, useId, useMemo, useState } from 'react';
import { Afterwards, useChoosing } from '../library/choosing.tsx';
import { Dialog } from '../library/dialog.tsx';
import { Folded } from '../library/folded.tsx';
import { MET_KINDS } from '../library/kinds.ts';
import { MetList, type MetWords } from '../library/met-list.tsx';
import { Outcome } from '../library/outcome.tsx';
import '../library/renewal.css';
import { Complaint, OnItsWay } from './complaint.tsx';
import { editionOf } from './edition.ts';
import { askClub, Told } from './here.ts';
import { revisionOf, unpacked } from './revisions-read.ts';
import type { SuggestionTold } from './suggestions.tsx';
import type { TemplateTold } from './template-page.tsx';
import { useAsked, useDoes } from './use-asked.ts';
import { counted } from './words.ts';

interface ReviewDialogProps {
  readonly told: TemplateTold;
  readonly suggestion: SuggestionTold;
  readonly bookcase: Bookcase;
  /** It was answered. */
  readonly onDone: () => void;
  readonly onClose: () => void;
}

/** What a suggestion would do to a template, and answering it. */
export function ReviewDialog(props: ReviewDialogProps) {
  const { told, suggestion, onClose } = props;
  const { id, revision } = told.template;
  const [head, setHead] = useState(revision);
  const looked = useAsked(
    useCallback(async () => {
      const [base, now, { text }] = await Promise.all([
        revisionOf(id, suggestion.base),
        revisionOf(id, head),
        askClub('suggestion', { params: { suggestion: suggestion.id } }),
      ]);
      const theirs = await unpacked(text);
      await breath();
      const made = Renewal.of(base.document, theirs.document, now.document, NAMES);
      if (!made.ok) throw new Told(made.says);
      return { renewal: made.renewal, now: now.document };
    }, [id, head, suggestion]),
  );
  return (
    <Dialog title={`Suggested by ${suggestion.by.name}`} onClose={onClose}>
      {looked.is === undefined ? (
        <OnItsWay says={looked.says} what="Working out what it brings …" again={looked.again} />
      ) : (
        <>
          {head === revision ? null : (
            <p className="complaint" role="alert">
              Revision {head} was published meanwhile. Look once more at what the suggestion brings
              to it.
            </p>
          )}
          <Looked
            key={head}
            {...props}
            head={head}
            renewal={looked.is.renewal}
            now={looked.is.now}
            onHead={setHead}
          />
        </>
      )}
    </Dialog>
  );
}

const NAMES = { mine: 'the template', theirs: 'the suggestion' };

interface LookedProps extends ReviewDialogProps {
  /** The revision that it is put on top of. */
  readonly head: number;
  readonly renewal: Renewal;
  readonly now: BookDocument;
  readonly onHead: (head: number) => void;
}

function Looked({ told, suggestion, head, renewal, now, onHead, onDone, onClose }: LookedProps) {
  const { met, taken } = renewal;
  const {
    choices,
    choose,
    many,
    showAll,
    weighings,
    now: weighed,
  } = useChoosing(renewal, met, 'mine');
  const [word, setWord] = useState('');
  const field = useId();
  const remarks = useMemo(() => renewal.told(choices), [renewal, choices]);
  const { busy, says, run } = useDoes();
  const brings = taken.length + met.filter(({ key }) => choices.get(key) === 'theirs').length;
  const { id, card } = told.template;
  const accept = async (): Promise<void> => {
    const done = await run(async () => {
      const merged = renewal.settle(choices);
      if (!merged.ok) throw new Told(merged.says);
      const edition = await editionOf(merged.document, now.lineage, card.kind ?? '');
      const { changes } = await differing(now, merged.document);
      const { saved: _saved, ...sent } = edition;
      try {
        await askClub('accept', {
          params: { suggestion: suggestion.id },
          body: { parent: head, word: word.trim(), note: noteOf(suggestion), changes, ...sent },
        });
      } catch (error) {
        if (!(error instanceof ClubRefused) || error.code !== 'changed') throw error;
        const next =
          error.head ?? (await askClub('template', { params: { template: id } })).template.revision;
        onHead(next);
        throw new Told(
          `Revision ${next} stands on the shelf meanwhile. Look once more at what the suggestion brings to it.`,
        );
      }
    });
    if (done) onDone();
  };
  const decline = async (): Promise<void> => {
    const asked = { params: { suggestion: suggestion.id }, body: { word: word.trim() } };
    if (await run(() => askClub('decline', asked))) onDone();
  };
  return (
    <>
      {suggestion.note.trim() === '' ? null : <p className="shelf-words">{suggestion.note}</p>}
      <p>
        {met.length + taken.length === 0
          ? `Revision ${head} has all of it already.`
          : `It was made from revision ${suggestion.base}; revision ${head} stands on the shelf.`}
      </p>
      {met.length === 0 ? null : (
        <section className="renewal-part" aria-labelledby={`${field} met`}>
          <h3 id={`${field} met`}>Changed in the template and by the suggestion</h3>
          <p className="quiet">
            Choose which one stands. The template stays as it is where you choose nothing.
          </p>
          <MetList
            met={met}
            words={WORDS}
            choices={choices}
            onChoose={choose}
            each={weighings.each}
            many={many}
            onMore={showAll}
          />
        </section>
      )}
      {taken.length === 0 ? null : (
        <section className="renewal-part" aria-labelledby={`${field} taken`}>
          <h3 id={`${field} taken`}>What it changes</h3>
          <Folded all={taken} before={`Revision ${head}`} after="Suggested" />
        </section>
      )}
      <Afterwards told={remarks} />
      <Outcome now={weighed} weighings={weighings} head="What it does to the template" />
      <div className="shelf-form">
        <label htmlFor={field}>A word to {suggestion.by.name}</label>
        <textarea
          id={field}
          className="field"
          rows={2}
          maxLength={500}
          value={word}
          onChange={(event) => setWord(event.target.value)}
        />
      </div>
      <Complaint says={says} />
      <p className="actions renewal-end">
        <button
          type="button"
          className="button button-main"
          disabled={busy || brings === 0}
          onClick={() => void accept()}
        >
          Accept: publish revision {head + 1} with {counted(brings, 'change')}
        </button>
        <button type="button" className="button" disabled={busy} onClick={() => void decline()}>
          Decline
        </button>
        <button type="button" className="button" onClick={onClose}>
          Answer later
        </button>
      </p>
    </>
  );
}

/** What the next revision says of itself. */
const noteOf = ({ by, note }: SuggestionTold): string =>
  note.trim() === '' ? `Suggested by ${by.name}.` : note;

const WORDS: MetWords = {
  kinds: MET_KINDS,
  mine: 'As the template is',
  theirs: 'As suggested',
  keepAll: (many) => `Keep all ${many} as the template is`,
  takeAll: (many) => `Take all ${many} as suggested`,
};
