import {
  type Bookcase,
  type BookHead,
  type Done,
  isOwnTemplate,
  type Listing,
  NO_TEMPLATE,
  workingCopyId,
} from '@kerfbook/keeping';
import {
  type ApplyEdit,
  deleteBook,
  destroyBook,
  duplicateBook,
  freeTitle,
  makeShops,
  renameBook,
  restoreBook,
  startJob,
  tagBook,
  templateCopy,
} from '@kerfbook/keeping/shelf';
import { type ReactNode, Suspense, useState } from 'react';
import { BUILT_IN_CARDS } from '../gallery/built-in-cards.ts';
import type { CardDesk } from '../gallery/card-desk.ts';
import { CardFacts, CardPicture, OwnPicture } from '../gallery/card-face.tsx';
import { later } from '../page/later.tsx';
import { shopLooked } from '../page/shop-seen.ts';
import { download } from '../storage/download.ts';
import { type AtClub, atClubSays, whoseSays } from './at-club.tsx';
import { keepCopy } from './keep-copy.ts';
import { momentOf } from './moments.ts';
import { NameForm } from './name-form.tsx';
import { originSentence } from './origin.ts';
import { TagsForm } from './tags-form.tsx';

/** What the rows of the list need: the bookcase and a way to report what an action came to. */
export interface RowTools {
  readonly bookcase: Bookcase;
  readonly apply: ApplyEdit;
  /** Runs an action, shows its sentence when it did not work, and reads the list anew. */
  readonly run: (action: () => Promise<Done>) => Promise<Done>;
  /** Shows a workbook and closes the list. */
  readonly open: (id: string) => void;
  /** Closes the list: another workbook is shown. */
  readonly opened: () => void;
  readonly beside: Listing['beside'];
  /** The id of the workbook that is the shop's. */
  readonly shops: string | undefined;
  /** Where the cards of the maker's own workbooks come from. */
  readonly desk: CardDesk;
  /** What a workbook has otherwise than the one at hand is asked for. */
  readonly onCompare: (id: string) => void;
  /** A workbook went to the trash: there is a way back in sight. */
  readonly onTrashed: (head: BookHead) => void;
  /** How they stand with the club; nothing where none serves the page. */
  readonly atClub: AtClub | undefined;
  /** The list came by itself, since a workbook could not be opened. */
  readonly unasked: boolean;
}

// Few ever need these: a workbook that cannot be opened, edits that could not be put back.
const Unopened = later(() => import('./unopened.tsx'));
const SetAsideEdits = later(() => import('./set-aside.tsx'));

interface BesideProps {
  readonly id: string;
  readonly title: string;
  readonly tools: RowTools;
}

/** What there is beside a workbook: why it could not be opened, edits that could not be put back. */
function Beside({ id, title, tools }: BesideProps) {
  const beside = tools.beside.get(id);
  if (beside === undefined) return null;
  const { unopened, aside } = beside;
  return (
    <Suspense fallback={null}>
      {unopened === undefined ? null : (
        <Unopened id={id} title={title} says={unopened} tools={tools} />
      )}
      {aside.length === 0 ? null : (
        <SetAsideEdits id={id} title={title} keys={aside} tools={tools} />
      )}
    </Suspense>
  );
}

type ShippedRow = Listing['templates'][number];

const OPENS = 'Opens a copy for you to change; the template stays as it came';
const STARTS = 'Begins another copy; the one you changed stays with yours';
const AGAIN = 'Puts this copy in the trash and opens the template as it came';

export function TemplateRow({
  row,
  tools,
}: {
  readonly row: ShippedRow;
  readonly tools: RowTools;
}) {
  const { bookcase, run, open, opened } = tools;
  const id = workingCopyId(row.key);
  // What was changed is the maker's own and listed there: from here it begins anew beside that.
  const changed = row.changed !== undefined || isChangedHere(bookcase, id);
  const here = bookcase.current.id === id && !changed;
  const begin = () => {
    void run(() => bookcase.startAgain(row.key, 'kept')).then((done) => {
      if (done.ok) opened();
    });
  };
  const drawn = BUILT_IN_CARDS.get(row.key);
  const picture = <CardPicture {...(drawn === undefined ? {} : { drawn })} />;
  const says = drawn?.card.about ?? row.about;
  return (
    <Row title={row.title} here={here} says={says} picture={picture}>
      <CardFacts card={drawn?.card} />
      <p className="actions">
        {changed ? (
          <Press name={row.title} does="Start a new one" says={STARTS} opens onPress={begin} />
        ) : (
          <Press name={row.title} does="Open" says={OPENS} opens onPress={() => open(id)} />
        )}
        {changed ? null : (
          <Press
            name={row.title}
            does="Save a copy as a file"
            onPress={() => saveTemplate(bookcase, row.key)}
          />
        )}
      </p>
    </Row>
  );
}

/** Changed in this tab, also where the device has no room for it. */
const isChangedHere = ({ current, revision }: Bookcase, id: string): boolean =>
  current.id === id && revision > 0;

function saveTemplate(bookcase: Bookcase, key: string): void {
  templateCopy(bookcase, key).then(
    (copy) => {
      if (copy !== undefined) download(copy.fileName, copy.text);
    },
    () => bookcase.notice(NO_TEMPLATE),
  );
}

type Mode = 'rename' | 'delete' | 'again' | 'job' | 'duplicate' | 'tags';

/** What is asked for from the fold: it is open again for who let it be. */
const RARE: ReadonlySet<Mode | undefined> = new Set([
  'rename',
  'delete',
  'again',
  'duplicate',
  'tags',
]);

const TAGS_UNREAD = 'Its tags could not be read. Open the workbook, then try again.';

interface OwnRowProps {
  readonly head: BookHead;
  /** Titles that are taken. */
  readonly taken: readonly string[];
  /** When it was last changed, where another one of its title is told from it by that. */
  readonly changed: string | undefined;
  readonly tools: RowTools;
}

export function OwnRow({ head, taken, changed, tools }: OwnRowProps) {
  const [mode, setMode] = useState<Mode>();
  const [before, setBefore] = useState<Mode>();
  const [noTags, setNoTags] = useState(false);
  const { bookcase, run, open, opened, apply } = tools;
  const here = bookcase.current.id === head.id;
  const title = here ? bookcase.current.book.title : head.title;
  const called = changed === undefined ? title : `${title}, changed ${changed}`;
  const done = () => {
    setBefore(mode);
    setMode(undefined);
  };
  const from =
    whoseSays(tools.atClub, head) ?? originSentence(head.origin, templateTitle(bookcase, head));
  const unopened = tools.beside.get(head.id)?.unopened !== undefined;
  const copyOf = templateOf(bookcase, head);
  const unsaved = !here && bookcase.inHand(head.id) !== undefined;
  const isTemplate = isOwnTemplate(head.origin);
  const isShops = tools.shops === head.id;
  const card = tools.desk.card(head.id);
  const askTags = () => {
    setMode('tags');
    setNoTags(false);
    if (card === undefined) tools.desk.drawn(head).catch(() => setNoTags(true));
  };
  const away =
    copyOf === undefined ? (
      <Press
        name={called}
        does="Delete"
        destroys
        takesKeys={before === 'delete'}
        onPress={() => setMode('delete')}
      />
    ) : (
      <Press
        name={called}
        does="Start again"
        says={AGAIN}
        destroys
        takesKeys={before === 'again'}
        onPress={() => setMode('again')}
      />
    );
  return (
    <Row
      title={called}
      here={here}
      picture={unopened ? undefined : <OwnPicture desk={tools.desk} head={head} />}
      says={`${isShops ? 'Your shop’s workbook. ' : ''}${from}.${changed === undefined ? since(head.updated, ' Changed ', '.') : ''}${unsaved ? ' Its last changes are not saved.' : ''}${atClubSays(tools.atClub, head.id)}`}
    >
      <Beside id={head.id} title={title} tools={tools} />
      {unopened ? null : <CardFacts card={card} late />}
      {mode === 'duplicate' ? (
        <NameForm
          label="Name of the duplicate"
          start={freeTitle(title, taken)}
          does="Duplicate"
          onName={async (name) => {
            const result = await run(() => duplicateBook(bookcase, head.id, name));
            if (result.ok) done();
            return result;
          }}
          onCancel={done}
        />
      ) : null}
      {mode === 'tags' && card === undefined ? (
        // Whoever wrote them anew without seeing those there are would lose them.
        <div className="question">
          <p role="status">{noTags ? TAGS_UNREAD : 'Reading its tags …'}</p>
          <p className="actions">
            <button type="button" className="button" ref={focus} onClick={done}>
              Cancel
            </button>
          </p>
        </div>
      ) : null}
      {mode === 'tags' && card !== undefined ? (
        <TagsForm
          tags={card.tags}
          onTags={async (tags) => {
            const result = await run(() => tagBook(bookcase, head.id, tags, apply));
            if (result.ok) done();
            return result;
          }}
          onCancel={done}
        />
      ) : null}
      {mode === 'job' ? (
        <NameForm
          label="Name of the job"
          start={freeTitle(title, taken)}
          does="Start"
          onName={async (name) => {
            const result = await run(() => startJob(bookcase, head.id, name));
            if (result.ok) opened();
            return result;
          }}
          onCancel={done}
        />
      ) : null}
      {mode === 'rename' ? (
        <NameForm
          label="New name"
          start={title}
          does="Rename"
          onName={async (name) => {
            const result = await run(() => renameBook(bookcase, head.id, name, apply));
            if (result.ok) done();
            return result;
          }}
          onCancel={done}
        />
      ) : null}
      {mode === 'delete' ? (
        <Question
          says={`Delete "${title}"? It goes to the trash with everything in it and stays there until you delete it for good.`}
          does="Delete"
          onYes={() => {
            done();
            void run(() => deleteBook(bookcase, head.id)).then((result) => {
              if (result.ok) tools.onTrashed(head);
            });
          }}
          onNo={done}
        />
      ) : null}
      {mode === 'again' && copyOf !== undefined ? (
        <Question
          says="Start again from the template? Your changed copy goes to the trash and stays there until you delete it for good."
          does="Start again"
          onYes={() => {
            done();
            void run(() => bookcase.startAgain(copyOf));
          }}
          onNo={done}
        />
      ) : null}
      {mode === undefined ? (
        <div className="actions">
          {unopened ? null : (
            <>
              {isTemplate ? (
                <Press
                  name={called}
                  does="Start a new job from it"
                  opens
                  takesKeys={before === 'job'}
                  onPress={() => setMode('job')}
                />
              ) : null}
              <Press
                name={called}
                does={isTemplate ? 'Change the template' : 'Open'}
                opens={!isTemplate}
                onPress={() => open(head.id)}
              />
              <Press
                name={called}
                does="Save a copy as a file"
                onPress={() => keepCopy(bookcase, head.id)}
              />
            </>
          )}
          {unopened ? (
            away
          ) : (
            <details className="card-more" open={RARE.has(before)}>
              <summary className="button" aria-label={`More: ${called}`}>
                More
              </summary>
              <div className="actions">
                <Press
                  name={called}
                  does="Rename"
                  takesKeys={before === 'rename'}
                  onPress={() => setMode('rename')}
                />
                <Press
                  name={called}
                  does="Duplicate"
                  takesKeys={before === 'duplicate'}
                  onPress={() => setMode('duplicate')}
                />
                <Press name={called} does="Tags" takesKeys={before === 'tags'} onPress={askTags} />
                {here ? null : (
                  <Press
                    name={called}
                    does="Compare with the open one"
                    onPress={() => tools.onCompare(head.id)}
                  />
                )}
                <Press
                  name={called}
                  does={isShops ? 'No longer my shop’s workbook' : 'Make it my shop’s workbook'}
                  onPress={() =>
                    void run(() => makeShops(bookcase, isShops ? undefined : head.id)).then(
                      shopLooked,
                    )
                  }
                />
                {away}
              </div>
              {copyOf === undefined ? null : (
                <p className="quiet">
                  "Start again" puts this copy in the trash and opens the template as it came.
                </p>
              )}
            </details>
          )}
        </div>
      ) : null}
    </Row>
  );
}

/** Key of the template that this is the working copy of; nothing for any other workbook. */
const templateOf = ({ templates }: Bookcase, { id }: BookHead): string | undefined =>
  templates.find(({ key }) => workingCopyId(key) === id)?.key;

function templateTitle({ templates }: Bookcase, { origin }: BookHead): string | undefined {
  if (origin.kind !== 'template') return undefined;
  return templates.find(({ key }) => key === origin.template)?.title;
}

export function TrashRow({ head, tools }: { readonly head: BookHead; readonly tools: RowTools }) {
  const [asking, setAsking] = useState<boolean>();
  const { bookcase, run, atClub } = tools;
  const follows = atClub?.follows;
  const about = atClub?.about.get(head.id);
  const goes =
    about === undefined
      ? 'Nothing of it stays on this device.'
      : about.isOwn
        ? 'It goes from this device and from the club; other devices that have it keep it.'
        : 'It goes from this device; whoever shares it with you keeps it.';
  return (
    <Row
      title={head.title}
      here={false}
      says={`In the trash${since(head.deleted ?? 0, ' since ')}.`}
    >
      {asking === true ? (
        <Question
          says={`Delete "${head.title}" for good? ${goes}`}
          does="Delete for good"
          onYes={() =>
            void run(() => follows?.books.destroy(head.id) ?? destroyBook(bookcase, head.id))
          }
          onNo={() => setAsking(false)}
        />
      ) : (
        <p className="actions">
          <Press
            name={head.title}
            does="Put back"
            onPress={() => void run(() => restoreBook(bookcase, head.id))}
          />
          <Press
            name={head.title}
            does="Delete for good"
            destroys
            takesKeys={asking === false}
            onPress={() => setAsking(true)}
          />
        </p>
      )}
    </Row>
  );
}

interface RowProps {
  /** What stands at its head. */
  readonly picture?: ReactNode;
  readonly title: string;
  readonly here: boolean;
  readonly says: string;
  readonly children: ReactNode;
}

function Row({ picture, title, here, says, children }: RowProps) {
  return (
    <li className="book-row">
      {picture}
      <h4 className="card-title">
        {title}
        {here ? <span className="quiet"> open now</span> : null}
      </h4>
      {says === '' ? null : <p className="quiet">{says}</p>}
      {children}
    </li>
  );
}

interface PressProps {
  /** Which workbook or version, for those who hear the button without seeing its row. */
  readonly name: string;
  readonly does: string;
  /** What it comes to, where its word alone does not tell. */
  readonly says?: string;
  readonly main?: boolean;
  /** It opens what the card shows: the picture does the same. */
  readonly opens?: boolean;
  /** It destroys, or begins to. */
  readonly destroys?: boolean;
  /** The question this button asked has been answered: the keys come back to it. */
  readonly takesKeys?: boolean;
  readonly onPress: () => void;
}

export function Press(props: PressProps) {
  const { name, does, main = false, opens = false, destroys = false, takesKeys = false } = props;
  const kind = main ? ' button-main' : destroys ? ' button-danger' : '';
  return (
    <button
      type="button"
      className={`button${kind}${opens ? ' card-open' : ''}`}
      aria-label={`${does}: ${name}`}
      title={props.says}
      ref={takesKeys ? focus : null}
      onClick={props.onPress}
    >
      {does}
    </button>
  );
}

interface QuestionProps {
  readonly says: string;
  readonly does: string;
  readonly onYes: () => void;
  readonly onNo: () => void;
}

/** Asks before something is thrown away or destroyed: what does so is the only press that is not safe. */
export function Question({ says, does, onYes, onNo }: QuestionProps) {
  return (
    <div className="question" role="alert">
      <p>{says}</p>
      <p className="actions">
        <button type="button" className="button button-danger" onClick={onYes}>
          {does}
        </button>
        <button type="button" className="button" ref={focus} onClick={onNo}>
          Cancel
        </button>
      </p>
    </div>
  );
}

/** The question takes the place of the button that was pressed, so the keys go to its safe answer. */
function focus(button: HTMLButtonElement | null): void {
  button?.focus();
}

/** A moment between words; nothing where it is not known. */
function since(at: number, before: string, after = ''): string {
  const moment = momentOf(at);
  return moment === '' ? '' : `${before}${moment}${after}`;
}
