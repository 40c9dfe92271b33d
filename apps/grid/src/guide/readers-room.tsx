import { checksKept } from '@kerfbook/guide';
import { type At, type CellView, type Guide, LIMITS, TONES } from '@kerfbook/workbook';
import { useId } from 'react';
import { whatItAllows } from '../beside/cell-words.ts';
import { wordsFor } from '../session/called.ts';
import { type GuidePatch, guideEdit, moved } from './guide-head.ts';
import type { Seen } from './guide-page.tsx';
import { LanguagePart } from './language-part.tsx';
import { WordsField } from './words-field.tsx';

export interface ReadersRoomProps {
  readonly seen: Seen;
  readonly onGo: (at: At) => void;
}

/** Tones as they are chosen, named for what they look like in a shop. */
const TONE_WORDS: Readonly<Record<(typeof TONES)[number], string>> = {
  graphite: 'Graphite',
  walnut: 'Walnut',
  cherry: 'Cherry',
  moss: 'Moss',
  milk: 'Milk paint',
};

const HIDES = [
  ['costs', 'Costs and prices'],
  ['notes', 'Remarks beside cells'],
] as const;

/** What of the workbook readers get, and what they are told around the steps. */
export function ReadersRoom({ seen, onGo }: ReadersRoomProps) {
  const { session, book } = seen;
  const { guide = {}, licence } = book.head;
  const say = (patch: GuidePatch, said: string): boolean =>
    session.apply(guideEdit(book, patch), said).ok;
  const words = (key: 'title' | 'before' | 'after' | 'credits', what: string) => ({
    session,
    value: guide[key] ?? '',
    onEnter: (text: string) => say({ [key]: text.trim() }, `${what} was written.`),
  });
  const tone = useId();
  const { mayChange } = session;
  return (
    <div className="plan-room plan-readers">
      <div>
        <Opened seen={seen} onGo={onGo} />
        <fieldset className="plan-part">
          <legend>Kept from readers</legend>
          {HIDES.map(([what, says]) => (
            <label key={what}>
              <input
                type="checkbox"
                checked={guide.hides?.includes(what) === true}
                disabled={!mayChange}
                onChange={({ currentTarget }) => {
                  const others = (guide.hides ?? []).filter((one) => one !== what);
                  say(
                    { hides: currentTarget.checked ? [...others, what] : others },
                    `${says}: ${currentTarget.checked ? 'kept from readers' : 'shown to readers'}.`,
                  );
                }}
              />
              {says}
            </label>
          ))}
          <KeptChecks seen={seen} />
        </fieldset>
        <LanguagePart seen={seen} say={say} onGo={onGo} />
      </div>
      <fieldset className="plan-part">
        <legend>What readers are told</legend>
        <WordsField
          {...words('title', 'The name of the plan')}
          label="Name of the plan"
          most={200}
          placeholder={book.title}
          hint="Blank: the name of the workbook."
        />
        <WordsField
          {...words('before', 'What readers are told first')}
          label="Words before the steps"
          most={LIMITS.text}
          isLong
        />
        <WordsField
          {...words('after', 'What readers are told last')}
          label="Words after the steps"
          most={LIMITS.text}
          hint="Finish and care, for one."
          isLong
        />
        <WordsField
          {...words('credits', 'Whose plan it is')}
          label="Whose plan it is, and who helped"
          most={LIMITS.text}
          isLong
        />
        <WordsField
          session={session}
          label="License"
          value={licence ?? ''}
          most={200}
          hint="What others may do with the plan, such as CC BY-SA 4.0. Blank: nothing is said."
          onEnter={(text) =>
            session.apply({ do: 'setBook', set: { licence: text.trim() || null } }).ok
          }
        />
        <div className="plan-field">
          <label htmlFor={tone}>Tone of the page</label>
          <select
            id={tone}
            className="field"
            value={guide.tone ?? ''}
            disabled={!mayChange}
            onChange={({ currentTarget: { value } }) =>
              say({ tone: TONES.find((one) => one === value) }, 'The tone of the page changed.')
            }
          >
            <option value="">As the app</option>
            {TONES.map((one) => (
              <option key={one} value={one}>
                {TONE_WORDS[one]}
              </option>
            ))}
          </select>
        </div>
      </fieldset>
    </div>
  );
}

/** The checks that readers do not get because costs are kept from them. */
function KeptChecks({ seen }: { readonly seen: Seen }) {
  const kept = checksKept(seen.book.document());
  if (kept.length === 0) return null;
  return (
    <div className="plan-kept">
      <p className="quiet">
        {kept.length === 1
          ? 'One check stays with you too, on paper as on the page:'
          : `${kept.length} checks stay with you too, on paper as on the page:`}
      </p>
      <ul>
        {kept.map(({ id, name, why }) => (
          <li key={id}>
            {name}{' '}
            <span className="quiet">
              {why === 'says' ? 'says an amount' : 'rests on an amount, which would go along'}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** The inputs that readers may change, in their order. */
function Opened({ seen, onGo }: { readonly seen: Seen; readonly onGo: (at: At) => void }) {
  const { session, book } = seen;
  const { inputs = [] } = book.head.guide ?? {};
  const add = useId();
  const set = (next: NonNullable<Guide['inputs']>, said: string): void => {
    session.apply(guideEdit(book, { inputs: [...next] }), said);
  };
  const isOpen = (name: string): boolean =>
    inputs.some((one) => one.toLowerCase() === name.toLowerCase());
  const others = book
    .names()
    .map(({ name, at }) => ({ name, cell: book.cell(at) }))
    .filter(({ name, cell }) => cell.role === 'input' && !isOpen(name));
  return (
    <fieldset className="plan-part">
      <legend>What readers may change</legend>
      {inputs.length === 0 ? (
        <p className="quiet">
          Nothing yet: readers get the plan at this size. Open the inputs that may be theirs, the
          length first.
        </p>
      ) : (
        <ol className="plan-opened">
          {inputs.map((name, at) => (
            <li key={name}>
              <OpenedWords seen={seen} cell={book.named(name)} name={name} onGo={onGo} />
              {session.mayChange ? (
                <span className="actions">
                  <button
                    type="button"
                    className="button"
                    aria-label={`Move ${name} up`}
                    disabled={at === 0}
                    onClick={() => set([...moved(inputs, at, -1)], `${name} was moved up.`)}
                  >
                    Up
                  </button>
                  <button
                    type="button"
                    className="button"
                    aria-label={`Move ${name} down`}
                    disabled={at === inputs.length - 1}
                    onClick={() => set([...moved(inputs, at, 1)], `${name} was moved down.`)}
                  >
                    Down
                  </button>
                  <button
                    type="button"
                    className="button"
                    aria-label={`Remove ${name}: readers no longer change it`}
                    onClick={() =>
                      set(
                        inputs.filter((one) => one !== name),
                        `${name} is no longer open to readers.`,
                      )
                    }
                  >
                    Remove
                  </button>
                </span>
              ) : null}
            </li>
          ))}
        </ol>
      )}
      {others.length === 0 || !session.mayChange ? null : (
        <div className="plan-field">
          <label htmlFor={add}>Open one more</label>
          <select
            id={add}
            className="field"
            value=""
            onChange={({ currentTarget: { value } }) => {
              if (value !== '') set([...inputs, value], `${value} is open to readers.`);
            }}
          >
            <option value="">Choose an input …</option>
            {others.map(({ name, cell }) => (
              <option key={name} value={name}>
                {wordsFor(cell.at, book) ?? name} ({name})
              </option>
            ))}
          </select>
          {inputs.length >= LIMITS.opened ? (
            <p className="quiet">{LIMITS.opened} are the most.</p>
          ) : null}
        </div>
      )}
    </fieldset>
  );
}

interface OpenedWordsProps {
  readonly seen: Seen;
  readonly cell: CellView | undefined;
  readonly name: string;
  readonly onGo: (at: At) => void;
}

/** What is opened, and within which range. */
function OpenedWords({ seen, cell, name, onGo }: OpenedWordsProps) {
  const { book } = seen;
  if (cell === undefined) {
    return (
      <span className="plan-wrong">
        No cell is named "{name}" any more. Remove it, or name a cell so.
      </span>
    );
  }
  const allows = whatItAllows(book, cell);
  return (
    <span>
      <button type="button" className="button-plain" onClick={() => onGo(cell.at)}>
        {wordsFor(cell.at, book) ?? name}
      </button>{' '}
      <span className="quiet">
        {allows ?? 'Without a range: readers may type anything. Give it one under Format.'}
      </span>
    </span>
  );
}
