import { knownTable } from '@kerfbook/guide';
import { useId } from 'react';
import type { GuidePatch } from './guide-head.ts';
import { languages } from './languages.ts';
import { pageTexts } from './page-texts.ts';
import type { ReadersRoomProps } from './readers-room.tsx';
import { languageSheetEdit, missingTexts, textsOf, wordsEdit } from './second-language.ts';

interface LanguagePartProps extends ReadersRoomProps {
  readonly say: (patch: GuidePatch, said: string) => boolean;
}

/** Which language the plan is in, and its sheet for a second one. */
export function LanguagePart({ seen, say, onGo }: LanguagePartProps) {
  const { session, book } = seen;
  const { language, second } = book.head.guide ?? {};
  const table = knownTable(book, 'words');
  const missing = table === undefined ? [] : missingTexts(book, pageTexts(book));
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
                const edit = languageSheetEdit(book, textsOf(book, pageTexts(book)));
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
        <p className="actions">
          <button
            type="button"
            className="button"
            onClick={() => onGo({ sheet: table.sheet, row: table.first, column: 0 })}
          >
            Go to its words
          </button>
          {missing.length === 0 || !session.mayChange ? null : (
            <button
              type="button"
              className="button"
              onClick={() => {
                const edit = session.mayShape() ? wordsEdit(book, missing) : undefined;
                if (edit !== undefined) session.apply(edit, 'New texts were added to its sheet.');
              }}
            >
              {missing.length === 1 ? 'Add 1 new text' : `Add ${missing.length} new texts`}
            </button>
          )}
        </p>
      )}
    </fieldset>
  );
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
