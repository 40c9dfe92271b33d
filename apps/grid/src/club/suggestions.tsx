import type { Bookcase } from '@kerfbook/keeping';
import type { AnswerOf } from '@kerfbook/protocol';
import { useCallback, useState } from 'react';
import { momentOf } from '../library/moments.ts';
import { ChangeList } from './change-list.tsx';
import { Complaint, OnItsWay } from './complaint.tsx';
import { askClub, countToAnswer } from './here.ts';
import { ReviewDialog } from './review-dialog.tsx';
import type { TemplateTold } from './template-page.tsx';
import { useAsked, useDoes } from './use-asked.ts';
import { counted } from './words.ts';

/** A suggestion as lists tell of it. */
export type SuggestionTold = AnswerOf<'suggestions'>['suggestions'][number];

const STATES: Readonly<Record<SuggestionTold['state'], string>> = {
  open: 'waits for an answer',
  accepted: 'accepted',
  declined: 'declined',
  takenBack: 'taken back',
};

/** All that was suggested about templates of mine and waits, and what became of what I suggested. */
export function Suggestions({ onTemplate }: { readonly onTemplate: (id: string) => void }) {
  const told = useAsked(
    useCallback(async (signal) => {
      const both = await askClub('mySuggestions', {}, signal);
      void countToAnswer();
      return both;
    }, []),
  );
  if (told.is === undefined) {
    return <OnItsWay says={told.says} what="Reading the suggestions …" again={told.again} />;
  }
  const { toAnswer, mine } = told.is;
  return (
    <>
      <section className="shelf-part" aria-label="For you to answer">
        <h3>For you to answer</h3>
        {toAnswer.length === 0 ? (
          <p className="quiet">No suggestion about a template of yours waits for an answer.</p>
        ) : null}
        <ul className="shelf-list">
          {toAnswer.map((one) => (
            <Line key={one.id} one={one} titled>
              <button type="button" className="button" onClick={() => onTemplate(one.template)}>
                Go to "{one.title}"
              </button>
            </Line>
          ))}
        </ul>
      </section>
      <section className="shelf-part" aria-label="What you suggested">
        <h3>What you suggested</h3>
        {mine.length === 0 ? (
          <p className="quiet">
            Nothing yet. Open a copy of a template, improve it, then choose "Publish on the shelf"
            in the menu: it can be suggested to its maker there.
          </p>
        ) : null}
        <ul className="shelf-list">
          {mine.map((one) => (
            <Line key={one.id} one={one} titled>
              <button type="button" className="button" onClick={() => onTemplate(one.template)}>
                Go to "{one.title}"
              </button>
              <TakeBack one={one} onDone={told.again} />
            </Line>
          ))}
        </ul>
      </section>
    </>
  );
}

interface SuggestionsHereProps {
  readonly told: TemplateTold;
  readonly bookcase: Bookcase;
  readonly onAnswered: () => void;
}

/** Suggestions about one template: its maker sees all of them, others their own. */
export function SuggestionsHere({ told, bookcase, onAnswered }: SuggestionsHereProps) {
  const { template, mine } = told;
  const { id } = template;
  const [reviewing, setReviewing] = useState<SuggestionTold>();
  const found = useAsked(
    useCallback((signal) => askClub('suggestions', { params: { template: id } }, signal), [id]),
  );
  if (found.is?.suggestions.length === 0) return null;
  return (
    <section className="shelf-part" aria-label="Suggestions">
      <h3>{mine ? 'Suggestions' : 'Your suggestions'}</h3>
      {found.is === undefined ? (
        <OnItsWay says={found.says} what="Reading the suggestions …" again={found.again} />
      ) : (
        <ul className="shelf-list">
          {found.is.suggestions.map((one) => (
            <Line key={one.id} one={one}>
              {mine && one.state === 'open' ? (
                <button
                  type="button"
                  className="button button-main"
                  onClick={() => setReviewing(one)}
                >
                  Look at what it brings
                </button>
              ) : null}
              {mine ? null : <TakeBack one={one} onDone={found.again} />}
            </Line>
          ))}
        </ul>
      )}
      {reviewing === undefined ? null : (
        <ReviewDialog
          told={told}
          suggestion={reviewing}
          bookcase={bookcase}
          onDone={() => {
            setReviewing(undefined);
            found.again();
            void countToAnswer();
            onAnswered();
          }}
          onClose={() => setReviewing(undefined)}
        />
      )}
    </section>
  );
}

interface LineProps {
  readonly one: SuggestionTold;
  /** Of which template it is has to be said. */
  readonly titled?: true;
  readonly children: React.ReactNode;
}

function Line({ one, titled, children }: LineProps) {
  const { title, base, by, note, made, state, word, changes } = one;
  return (
    <li>
      <h4>
        {titled === true ? `${title}: ` : ''}
        {counted(changes.length, 'change')}{' '}
        <span className="quiet">
          by {by.name}, {momentOf(made)}, made from revision {base}, {STATES[state]}
        </span>
      </h4>
      {note.trim() === '' ? null : <p className="shelf-words">{note}</p>}
      {word === undefined || word.trim() === '' ? null : (
        <p className="shelf-words">Answer: {word}</p>
      )}
      <ChangeList
        changes={changes}
        head="What it changes"
        before={`Revision ${base}`}
        after="Suggested"
      />
      <p className="actions">{children}</p>
    </li>
  );
}

function TakeBack({ one, onDone }: { readonly one: SuggestionTold; readonly onDone: () => void }) {
  const { busy, says, run } = useDoes();
  if (one.state !== 'open') return null;
  const back = async (): Promise<void> => {
    if (await run(() => askClub('takeBack', { params: { suggestion: one.id } }))) onDone();
  };
  return (
    <>
      <button type="button" className="button" disabled={busy} onClick={() => void back()}>
        Take back
      </button>
      <Complaint says={says} />
    </>
  );
}
