import type { Bookcase } from '@kerfbook/keeping';
import { lineageOf, newBookId } from '@kerfbook/keeping/shelf';
import { ClubRefused, LICENCES, type Licence } from '@kerfbook/protocol';
import { type FormEvent, useCallback, useId, useState } from 'react';
import { KINDS } from '../gallery/kinds.ts';
import { Dialog } from '../library/dialog.tsx';
import { Folded } from '../library/folded.tsx';
import '../library/renewal.css';
import type { Showing } from '../page/activity.ts';
import type { Session } from '../session/session.ts';
import { Complaint, OnItsWay } from './complaint.tsx';
import { useClub } from './here.ts';
import { type Published, publishNew, publishNext, suggest } from './publish.ts';
import { type StandingOnShelf, standingOf } from './standing.ts';
import { useAsked, useDoes } from './use-asked.ts';
import { wantedPlace } from './wanted-place.ts';
import { counted, LICENCE_KEYS } from './words.ts';
import './shelf.css';

interface PublishDialogProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly onShow: (showing: Showing) => void;
  /** Turns to the shelf. */
  readonly onShelf: () => void;
  readonly onClose: () => void;
}

/** Publishes the workbook at hand on the club's shelf, or suggests what it has otherwise. */
export default function PublishDialog(props: PublishDialogProps) {
  const { onClose } = props;
  const club = useClub();
  return (
    <Dialog title="Publish on the shelf" onClose={onClose}>
      {club.is === 'asking' ? <p className="quiet">Asking the club …</p> : null}
      {club.is === 'away' ? <Complaint says={club.says} /> : null}
      {club.is === 'here' && club.here.me === undefined ? <SignInFirst {...props} /> : null}
      {club.is === 'here' && club.here.me !== undefined ? (
        <SignedIn {...props} by={club.here.me.name} />
      ) : null}
    </Dialog>
  );
}

function SignInFirst({ onShelf, onClose }: PublishDialogProps) {
  return (
    <>
      <p>Only members of the club publish on its shelf. Sign in there first.</p>
      <p className="actions">
        <button
          type="button"
          className="button button-main"
          onClick={() => {
            onClose();
            onShelf();
          }}
        >
          Go to the shelf
        </button>
      </p>
    </>
  );
}

type Done =
  | ({ readonly is: 'published' } & Published)
  | { readonly is: 'suggested'; readonly to: string };

function SignedIn(props: PublishDialogProps & { readonly by: string }) {
  const { session, bookcase } = props;
  const [document] = useState(() => {
    const now = session.settled().document();
    const lineage = lineageOf(now, bookcase.current.origin, bookcase.templates);
    return lineage === undefined ? now : { ...now, lineage };
  });
  const [done, setDone] = useState<Done>();
  const looked = useAsked(useCallback(() => standingOf(bookcase, document), [bookcase, document]));
  if (done !== undefined) return <Told {...props} done={done} />;
  if (!session.mayChange) {
    return (
      <p className="complaint">View only: this workbook is open elsewhere. Publish it there.</p>
    );
  }
  if (looked.is === undefined) {
    return <OnItsWay says={looked.says} what="Looking at the shelf …" again={looked.again} />;
  }
  const standing = looked.is;
  if (standing.is === 'mine' && standing.lineage.revision < standing.told.template.revision) {
    return (
      <BringInFirst
        {...props}
        rests={standing.lineage.revision}
        head={standing.told.template.revision}
      />
    );
  }
  return (
    <PublishForm
      {...props}
      standing={standing}
      document={document}
      onChanged={looked.again}
      onDone={setDone}
    />
  );
}

interface BringInFirstProps extends PublishDialogProps {
  readonly rests: number;
  readonly head: number;
}

/** Another revision stands on the shelf: nothing is published over what its maker has not seen. */
function BringInFirst({ rests, head, onShow }: BringInFirstProps) {
  return (
    <>
      <p>
        Revision {head} stands on the shelf, and this workbook rests on revision {rests}. Bring in
        what is new first, then publish.
      </p>
      <p className="actions">
        <button type="button" className="button button-main" onClick={() => onShow('renewal')}>
          Look at what is new
        </button>
      </p>
    </>
  );
}

function Told({ done, onShelf, onClose }: PublishDialogProps & { readonly done: Done }) {
  return (
    <>
      <p role="status">
        {done.is === 'published'
          ? `"${done.title}" is on the shelf as revision ${done.revision}.`
          : `Your suggestion is with ${done.to}. The answer stands under "Suggestions" on the shelf.`}
      </p>
      <p className="actions">
        <button
          type="button"
          className="button button-main"
          onClick={() => {
            wantedPlace.set(
              done.is === 'published'
                ? { at: 'template', id: done.template }
                : { at: 'suggestions' },
            );
            onClose();
            onShelf();
          }}
        >
          Go to the shelf
        </button>
        <button type="button" className="button" onClick={onClose}>
          Back to the workbook
        </button>
      </p>
    </>
  );
}

interface PublishFormProps extends PublishDialogProps {
  /** Whoever is signed in. */
  readonly by: string;
  readonly standing: StandingOnShelf;
  readonly document: ReturnType<Session['book']['document']>;
  /** Another revision stands on the shelf meanwhile. */
  readonly onChanged: () => void;
  readonly onDone: (done: Done) => void;
}

function PublishForm(props: PublishFormProps) {
  const { session, bookcase, by, standing, document, onChanged, onDone, onClose } = props;
  const mine = standing.is === 'mine' ? standing : undefined;
  const others = standing.is === 'others' ? standing : undefined;
  const before = standing.is === 'new' ? undefined : standing.told.template;
  const [as, setAs] = useState<'suggestion' | 'own'>('suggestion');
  const isSuggestion = others !== undefined && as === 'suggestion';
  const [title, setTitle] = useState(mine?.told.template.title ?? document.title);
  const [kind, setKind] = useState(before?.card.kind ?? kindOfLineage(document));
  const [licence, setLicence] = useState<Licence>(before?.licence ?? 'cc-by-sa-4.0');
  const [note, setNote] = useState('');
  // Sent again it is the same one, and does not lie on the shelf twice.
  const [id] = useState(newBookId);
  const names = useId();
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const from = { session, bookcase, document };
    const said = { by, title: title.trim(), note: note.trim(), kind, licence };
    await run(async () => {
      try {
        if (isSuggestion) {
          await suggest(from, id, others, said.note);
          return onDone({ is: 'suggested', to: others.told.template.by.name });
        }
        const published =
          mine === undefined
            ? await publishNew(from, id, said, standing)
            : await publishNext(from, mine, said);
        onDone({ is: 'published', ...published });
      } catch (error) {
        if (mine !== undefined && error instanceof ClubRefused && error.code === 'changed') {
          return onChanged();
        }
        throw error;
      }
    });
  };
  const differs = standing.is === 'new' ? undefined : standing.differs;
  const nothing = differs?.length === 0 && (mine !== undefined || isSuggestion);
  return (
    <form className="shelf-form" onSubmit={(event) => void submit(event)}>
      {standing.is === 'new' && standing.gone !== undefined ? (
        <p className="quiet">
          "{standing.gone}", which this workbook was made from, is not on the shelf any more. It is
          published as a new template.
        </p>
      ) : null}
      {others === undefined ? null : (
        <fieldset className="shelf-choice">
          <legend>
            This workbook was made from "{others.told.template.title}" by{' '}
            {others.told.template.by.name}
          </legend>
          <label>
            <input
              type="radio"
              name={`${names} as`}
              checked={as === 'suggestion'}
              onChange={() => setAs('suggestion')}
            />
            Suggest my changes to {others.told.template.by.name}
          </label>
          <label>
            <input
              type="radio"
              name={`${names} as`}
              checked={as === 'own'}
              onChange={() => setAs('own')}
            />
            Publish it as a template of my own, which says what it was made from
          </label>
        </fieldset>
      )}
      {isSuggestion ? null : (
        <>
          <label htmlFor={`${names} title`}>Template name</label>
          <input
            id={`${names} title`}
            className="field"
            value={title}
            required
            maxLength={200}
            autoComplete="off"
            onChange={(event) => setTitle(event.target.value)}
          />
          <label htmlFor={`${names} kind`}>What it is</label>
          <select
            id={`${names} kind`}
            className="field"
            value={kind}
            onChange={({ currentTarget }) => setKind(currentTarget.value)}
          >
            <option value="">Something else</option>
            {[...new Set([...KINDS.map((one) => one.says), ...(kind === '' ? [] : [kind])])].map(
              (one) => (
                <option key={one} value={one}>
                  {one}
                </option>
              ),
            )}
          </select>
        </>
      )}
      {isSuggestion || mine !== undefined ? null : (
        <>
          <label htmlFor={`${names} licence`}>License</label>
          <select
            id={`${names} licence`}
            className="field"
            value={licence}
            onChange={({ currentTarget }) => setLicence(currentTarget.value as Licence)}
          >
            {LICENCE_KEYS.map((key) => (
              <option key={key} value={key}>
                {LICENCES[key]}
              </option>
            ))}
          </select>
        </>
      )}
      <label htmlFor={`${names} note`}>
        {mine === undefined && !isSuggestion
          ? 'What members should know'
          : 'What you changed, and why'}
      </label>
      <textarea
        id={`${names} note`}
        className="field"
        rows={3}
        maxLength={2000}
        value={note}
        onChange={(event) => setNote(event.target.value)}
      />
      {differs === undefined ? null : (
        <section className="shelf-differs" aria-label="What differs">
          <h3>
            {differs.length === 0
              ? 'Nothing differs'
              : `${counted(differs.length, 'change')} since revision ${standing.is === 'new' ? 1 : standing.lineage.revision}`}
          </h3>
          <Folded all={differs} before="On the shelf" after="Yours" />
        </section>
      )}
      <p className="quiet">
        All sheets go along, with your prices and rates. Customer, job number, due date, revision,
        the price agreed on, terms and your letterhead stay here.
      </p>
      <Complaint says={says} />
      <p className="actions">
        <button
          type="submit"
          className="button button-main"
          disabled={busy || nothing || (!isSuggestion && title.trim() === '')}
        >
          {busy ? 'Sending …' : doesOf(mine?.told.template.revision, isSuggestion)}
        </button>
        <button type="button" className="button" onClick={onClose}>
          Cancel
        </button>
      </p>
    </form>
  );
}

function doesOf(revision: number | undefined, isSuggestion: boolean): string {
  if (isSuggestion) return 'Suggest';
  return revision === undefined ? 'Publish' : `Publish revision ${revision + 1}`;
}

/** What is built, of a workbook that came from a built-in template. */
function kindOfLineage({ lineage }: PublishFormProps['document']): string {
  const key = lineage?.key;
  return KINDS.find(({ keys }) => key !== undefined && keys.includes(key))?.says ?? '';
}
