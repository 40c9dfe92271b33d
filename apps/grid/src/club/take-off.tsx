import { LICENCES, type Licence, type ListedTemplate } from '@kerfbook/protocol';
import { useState } from 'react';
import { Question } from '../library/book-rows.tsx';
import { Complaint } from './complaint.tsx';
import { askClub } from './here.ts';
import { useDoes } from './use-asked.ts';
import { LICENCE_KEYS } from './words.ts';

interface TakeOffProps {
  readonly template: ListedTemplate;
  /** Whoever looks made it; else a keeper of the shelf looks. */
  readonly mine: boolean;
  readonly onLicence: () => void;
  readonly onGone: () => void;
}

/** What its maker settles about a template, and a keeper where it has to go. */
export function TakeOff({ template, mine, onLicence, onGone }: TakeOffProps) {
  const { id, title, licence, hidden } = template;
  const [asking, setAsking] = useState(false);
  const { busy, says, run } = useDoes();
  const asked = { params: { template: id } };
  const set = async (next: Licence): Promise<void> => {
    if (await run(() => askClub('setLicence', { ...asked, body: { licence: next } }))) onLicence();
  };
  const gone = async (): Promise<void> => {
    if (await run(() => askClub('takeOffShelf', asked))) onGone();
  };
  const show = async (): Promise<void> => {
    if (await run(() => askClub('unhide', { body: { of: 'template', id } }))) onLicence();
  };
  return (
    <section className="shelf-part" aria-label="This template">
      <h3>{mine ? 'Your template' : 'For keepers of the shelf'}</h3>
      {mine ? (
        <label className="shelf-licence">
          License
          <select
            className="field"
            value={licence}
            disabled={busy}
            onChange={({ currentTarget }) => void set(currentTarget.value as Licence)}
          >
            {LICENCE_KEYS.map((key) => (
              <option key={key} value={key}>
                {LICENCES[key]}
              </option>
            ))}
          </select>
        </label>
      ) : null}
      {asking ? (
        <Question
          says={`Take "${title}" off the shelf? Its revisions, remarks and photos go with it. Copies that members have stay with them.`}
          does="Take it off the shelf"
          onYes={() => void gone()}
          onNo={() => setAsking(false)}
        />
      ) : (
        <p className="actions">
          {!mine && hidden === true ? (
            <button type="button" className="button" disabled={busy} onClick={() => void show()}>
              Show it again
            </button>
          ) : null}
          <button
            type="button"
            className="button button-danger"
            disabled={busy}
            onClick={() => setAsking(true)}
          >
            Take off the shelf
          </button>
        </p>
      )}
      <Complaint says={says} />
    </section>
  );
}
