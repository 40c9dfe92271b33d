import { knownTable } from '@kerfbook/drawing';
import { type WordsWanted, wordsHere, wordsSought } from '@kerfbook/guide';
import { useEffect, useId, useState } from 'react';
import type { GuidePatch } from './guide-head.ts';
import type { Seen } from './guide-page.tsx';
import { languages } from './languages.ts';
import type { ReadersRoomProps } from './readers-room.tsx';
import { languageSheetEdit, wordsEdit } from './second-language.ts';

interface LanguagePartProps extends ReadersRoomProps {
  readonly say: (patch: GuidePatch, said: string) => boolean;
}

/** Which language the plan is in, and its sheet for a second one. */
export function LanguagePart({ seen, say, onGo }: LanguagePartProps) {
  const { session, book } = seen;
  const { language, second } = book.head.guide ?? {};
  const table = knownTable(book, 'words');
  const wanted = useWanted(seen, table !== undefined);
  return (
    <fieldset className="plan-part">
      <legend>Language</legend>
      <Language
        label="The plan is in"
        chosen={language ?? 'en'}
        none={undefined}
        disabled={!session.mayChange}
        onChoose={(tag) =>
          say({ language: tag === 'en' ? undefined : tag }, 'The language of the plan changed.')
        }
      />
      <Language
        label="Second language"
        chosen={second ?? ''}
        none="None"
        disabled={!session.mayChange}
        onChoose={(tag) => say({ second: tag || undefined }, 'The second language changed.')}
      />
      {table === undefined ? (
        <>
          <p className="quiet">
            A sheet with every text of the plan on it: beside each you write how it is said in the
            second language.
          </p>
          {session.mayChange ? (
            <button
              type="button"
              className="button"
              onClick={() => {
                if (!session.mayShape()) return;
                const edit = languageSheetEdit(book, wordsHere(book).rowless);
                if (edit !== undefined) {
                  session.apply(edit, 'A sheet for a second language was added.');
                }
              }}
            >
              Add a sheet for a second language
            </button>
          ) : null}
        </>
      ) : (
        <>
          <Given wanted={wanted} />
          <p className="actions">
            <button
              type="button"
              className="button"
              onClick={() => onGo({ sheet: table.sheet, row: table.first, column: 0 })}
            >
              Go to its words
            </button>
            {wanted === undefined || wanted.rowless.length === 0 || !session.mayChange ? null : (
              <button
                type="button"
                className="button"
                onClick={() => {
                  // What was entered since the texts were looked for counts too.
                  const { rowless } = wordsHere(book, wanted.all);
                  const edit = session.mayShape() ? wordsEdit(book, rowless) : undefined;
                  if (edit !== undefined) session.apply(edit, 'New texts were added to its sheet.');
                }}
              >
                {wanted.rowless.length === 1
                  ? 'Add 1 new text'
                  : `Add ${wanted.rowless.length} new texts`}
              </button>
            )}
          </p>
        </>
      )}
    </fieldset>
  );
}

/** So many texts without words are listed; of more the count is said. */
const LISTED = 40;

/** How many of how many texts are given, and those that are not. */
function Given({ wanted }: { readonly wanted: WordsWanted | undefined }) {
  if (wanted === undefined) {
    return (
      <p className="quiet" role="status">
        Looking for what readers read …
      </p>
    );
  }
  const { all, missing } = wanted;
  const counted = `${all.length - missing.length} of ${all.length} texts are given.`;
  if (missing.length === 0) return <p role="status">{counted}</p>;
  const more = missing.length - LISTED;
  return (
    <details className="plan-unsaid">
      <summary>
        <span role="status">
          {counted} {missing.length === 1 ? 'One is' : `${missing.length} are`} left in the first
          language.
        </span>
      </summary>
      <p className="quiet">
        What stands in braces is filled in with sizes, parts and names: keep it as it is. Sentences
        that come at other sizes and choices of your readers are among them.
      </p>
      <ul>
        {missing.slice(0, LISTED).map((words) => (
          <li key={words}>{words}</li>
        ))}
        {more > 0 ? <li>and {more} more</li> : null}
      </ul>
    </details>
  );
}

/** A pause after which texts are looked for, ms: all figures are drawn for it. */
const PAUSE = 700;

/** A pause between two sizes that are looked at, in which keys and frames have their turn, ms. */
const BETWEEN = 30;

/**
 * What readers read, and what of it has no words; looked for once nothing was changed for a moment. What comes at other
 * sizes is told once all of them were looked at.
 */
function useWanted({ book, plan }: Seen, isOn: boolean): WordsWanted | undefined {
  const [found, setFound] = useState<WordsWanted>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: another plan is another state of the workbook.
  useEffect(() => {
    if (!isOn) return undefined;
    const sought = wordsSought(book);
    let last: WordsWanted | undefined;
    const lookOn = (): void => {
      const { value, done } = sought.next();
      if (last === undefined || done === true) setFound(value ?? last);
      if (done === true) return;
      last = value;
      later = setTimeout(lookOn, BETWEEN);
    };
    let later = setTimeout(lookOn, PAUSE);
    return () => clearTimeout(later);
  }, [book, plan, isOn]);
  return isOn ? found : undefined;
}

interface LanguageProps {
  readonly label: string;
  readonly chosen: string;
  /** What stands for no language. */
  readonly none: string | undefined;
  readonly disabled: boolean;
  readonly onChoose: (tag: string) => void;
}

function Language({ label, chosen, none, disabled, onChoose }: LanguageProps) {
  const id = useId();
  return (
    <div className="plan-field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        className="field"
        value={chosen}
        disabled={disabled}
        onChange={({ currentTarget }) => onChoose(currentTarget.value)}
      >
        {none === undefined ? null : <option value="">{none}</option>}
        {languages(chosen === '' ? undefined : chosen).map(({ tag, says }) => (
          <option key={tag} value={tag}>
            {says}
          </option>
        ))}
      </select>
    </div>
  );
}
