import { type Bookcase, type Listing, writeTrouble } from '@kerfbook/keeping';
import { type JoinOffer, type JoinSource, joinOffer, listBooks } from '@kerfbook/keeping/shelf';
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
  const [chosen, setChosen] = useState<Source>();
  const [offer, setOffer] = useState<JoinOffer>();
  const [says, setSays] = useState<string>();
  useEffect(() => {
    listBooks(bookcase).then(
      (listing) => setSources(sourcesOf(listing, bookcase.current.id)),
      (error: unknown) => setSays(`The list could not be read: ${writeTrouble(error)}`),
    );
  }, [bookcase]);
  const look = (source: Source): void => {
    setChosen(source);
    setOffer(undefined);
    setSays(undefined);
    joinOffer(bookcase, source.from, session.book.document()).then(setOffer, (error: unknown) =>
      setSays(`${source.title} could not be read: ${writeTrouble(error)}`),
    );
  };
  const add = (): void => {
    if (offer?.ok !== true) return;
    const said = `Sheets added from ${chosen?.title ?? 'a workbook'}.`;
    const done = session.apply({ do: 'become', book: offer.document }, said);
    if (done.ok) onClose();
    else setSays(done.says);
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
                onChange={() => look(source)}
              />
              <span>
                <strong>{source.title}</strong> <span className="quiet">{source.about}</span>
              </span>
            </label>
          </li>
        ))}
      </ul>
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

/** What would come, and what it would do to names that both have. */
function Offered({ offer }: { readonly offer: JoinOffer | undefined }) {
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
      <p>
        {sheets.length === 0 ? 'No new sheet' : `New: ${sheets.join(', ')}`}
        {rows > 0 ? `, and ${counted(rows, 'row')} in the tables that are here.` : '.'}
      </p>
      {told.map(({ code, says, which }) => (
        <details key={code}>
          <summary>{says}</summary>
          <p className="quiet">{which.join('; ')}</p>
        </details>
      ))}
    </div>
  );
}

const counted = (many: number, one: string): string => `${many} ${one}${many === 1 ? '' : 's'}`;

function addWords(offer: JoinOffer | undefined): string {
  if (offer?.ok !== true || offer.sheets.length === 0) return 'Add the sheets';
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
