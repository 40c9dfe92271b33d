import { type Bookcase, type Listing, writeTrouble } from '@kerfbook/keeping';
import {
  type CameIn,
  type ExchangeOffer,
  exchangeOffer,
  type JoinOffer,
  type JoinSource,
  joinOffer,
  joinsOf,
  keepJoin,
  listBooks,
} from '@kerfbook/keeping/shelf';
import { useEffect, useState } from 'react';
import type { Session } from '../session/session.ts';
import { Dialog } from './dialog.tsx';

interface JoinSheetsProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly onClose: () => void;
}

interface Source {
  readonly key: string;
  readonly title: string;
  readonly about: string;
  readonly from: JoinSource;
}

/** Puts the sheets of another workbook into this one, after saying what would follow what. */
export default function JoinSheets({ session, bookcase, onClose }: JoinSheetsProps) {
  const [sources, setSources] = useState<readonly Source[]>();
  const [joins, setJoins] = useState<readonly CameIn[]>([]);
  const [chosen, setChosen] = useState<Source>();
  const [instead, setInstead] = useState<CameIn>();
  const [offer, setOffer] = useState<JoinOffer | ExchangeOffer>();
  const [says, setSays] = useState<string>();
  useEffect(() => {
    Promise.all([listBooks(bookcase), joinsOf(bookcase)]).then(
      ([listing, came]) => {
        setSources(sourcesOf(listing, bookcase.current.id));
        setJoins(came);
      },
      (error: unknown) => setSays(`The list could not be read: ${writeTrouble(error)}`),
    );
  }, [bookcase]);
  useEffect(() => {
    if (chosen === undefined) return;
    let here = true;
    const into = session.settled().document();
    const asked =
      instead === undefined
        ? joinOffer(bookcase, chosen.from, into)
        : exchangeOffer(bookcase, chosen.from, instead, into);
    asked.then(
      (found) => {
        if (here) setOffer(found);
      },
      (error: unknown) => {
        if (here) setSays(`${chosen.title} could not be read: ${writeTrouble(error)}`);
      },
    );
    return () => {
      here = false;
    };
  }, [session, bookcase, chosen, instead]);
  const look = (source: Source | undefined, place: CameIn | undefined): void => {
    setChosen(source);
    setInstead(place);
    setOffer(undefined);
    setSays(undefined);
  };
  const add = (): void => {
    if (offer?.ok !== true) return;
    const title = chosen?.title ?? 'a workbook';
    const before = session.book.document();
    const said =
      instead === undefined
        ? `Sheets added from ${title}.`
        : `Sheets from ${title} in the place of those from ${instead.title}.`;
    const done = session.apply({ do: 'become', book: offer.document }, said);
    if (!done.ok) {
      setSays(done.says);
      return;
    }
    const step = 'step' in offer ? offer.step : { before, after: offer.document };
    keepJoin(bookcase, title, step).catch((error: unknown) =>
      bookcase.notice(`These sheets cannot be exchanged for others later. ${writeTrouble(error)}`),
    );
    onClose();
  };
  return (
    <Dialog title="Add sheets from a workbook" onClose={onClose}>
      <p className="quiet">
        Cells of the same name become one: you enter the species once, and what one workbook
        calculates, the other uses. Parts and boards go into the tables that are here. You can undo
        it.
      </p>
      {sources === undefined && says === undefined ? (
        <p className="quiet">Reading the list …</p>
      ) : null}
      {sources?.length === 0 ? <p>There is no other workbook on this device yet.</p> : null}
      <ul className="join-sources">
        {sources?.map((source) => (
          <li key={source.key}>
            <label>
              <input
                type="radio"
                name="join-source"
                checked={chosen?.key === source.key}
                onChange={() => look(source, instead)}
              />
              <span>
                <strong>{source.title}</strong> <span className="quiet">{source.about}</span>
              </span>
            </label>
          </li>
        ))}
      </ul>
      {joins.length === 0 ? null : (
        <fieldset className="join-place">
          <legend>The new sheets</legend>
          <label>
            <input
              type="radio"
              name="join-place"
              checked={instead === undefined}
              onChange={() => look(chosen, undefined)}
            />
            come beside all that is here
          </label>
          {joins.map((came) => (
            <label key={joins.indexOf(came)}>
              <input
                type="radio"
                name="join-place"
                checked={instead === came}
                onChange={() => look(chosen, came)}
              />
              <span>
                take the place of what came from "{came.title}"
                {came.sheets.length === 0 ? null : (
                  <span className="quiet"> {came.sheets.join(', ')}</span>
                )}
              </span>
            </label>
          ))}
        </fieldset>
      )}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      {chosen === undefined || says !== undefined ? null : <Offered offer={offer} />}
      <p className="actions">
        <button
          type="button"
          className={offer?.ok === true ? 'button button-main' : 'button'}
          disabled={offer?.ok !== true}
          onClick={add}
        >
          {addWords(offer)}
        </button>
        <button type="button" className="button" onClick={onClose}>
          Cancel
        </button>
      </p>
    </Dialog>
  );
}

/** What would come, what would go, and what it would do to names that both have. */
function Offered({ offer }: { readonly offer: JoinOffer | ExchangeOffer | undefined }) {
  if (offer === undefined) return <p className="quiet">Looking at it …</p>;
  if (!offer.ok) {
    return (
      <p className="complaint" role="alert">
        {offer.says}
      </p>
    );
  }
  const { sheets, rows, told } = offer;
  return (
    <div className="question" aria-live="polite">
      <p>{`New: ${sheetsAndRows(sheets, rows)}.`}</p>
      {'gone' in offer ? <Exchanges offer={offer} /> : null}
      {told.map(({ code, says, which }) => (
        <details key={code}>
          <summary>{says}</summary>
          <p className="quiet">{which.join('; ')}</p>
        </details>
      ))}
    </div>
  );
}

/** What goes, and what becomes of what was typed there. */
function Exchanges({ offer }: { readonly offer: ExchangeOffer & { readonly ok: true } }) {
  const { gone, rowsGone, carried, lost, says } = offer;
  return (
    <>
      <p>{`Gone: ${sheetsAndRows(gone, rowsGone)}.`}</p>
      {carried.length === 0 ? null : (
        <Lines says="What you typed stands in the new sheets too:" lines={carried} />
      )}
      {lost.length === 0 ? null : (
        <Lines says="What you typed goes with the old sheets:" lines={lost} />
      )}
      {says.length === 0 ? null : <Lines says="Look at these afterwards:" lines={says} />}
    </>
  );
}

function Lines({ says, lines }: { readonly says: string; readonly lines: readonly string[] }) {
  return (
    <>
      <p>{says}</p>
      <ul>
        {[...new Set(lines)].map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}

function sheetsAndRows(sheets: readonly string[], rows: number): string {
  const inTables = rows > 0 ? `${counted(rows, 'row')} in the tables that are here` : '';
  const all = [sheets.length === 0 ? 'no sheet' : sheets.join(', '), inTables];
  return all.filter((one) => one !== '').join(', and ');
}

const counted = (many: number, one: string): string => `${many} ${one}${many === 1 ? '' : 's'}`;

function addWords(offer: JoinOffer | ExchangeOffer | undefined): string {
  if (offer?.ok !== true) return 'Add the sheets';
  if ('gone' in offer) return 'Exchange the sheets';
  if (offer.sheets.length === 0) return 'Add the sheets';
  return offer.sheets.length === 1 ? 'Add the sheet' : `Add ${offer.sheets.length} sheets`;
}

/** Everything but the workbook at hand: what ships first, then the maker's own, the last used first. */
function sourcesOf({ templates, own }: Listing, here: string): readonly Source[] {
  return [
    ...templates.map(
      ({ key, title, about }): Source => ({ key, title, about, from: { template: key } }),
    ),
    ...own
      .filter(({ id }) => id !== here)
      .map(
        ({ id, title }): Source => ({
          key: `own ${id}`,
          title,
          about: 'Yours.',
          from: { own: id },
        }),
      ),
  ];
}
