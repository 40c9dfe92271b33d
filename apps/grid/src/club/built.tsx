import type { AnswerOf } from '@kerfbook/protocol';
import { type FormEvent, useCallback, useId, useState } from 'react';
import { momentOf } from '../library/moments.ts';
import { Complaint, OnItsWay } from './complaint.tsx';
import { askClub, type Me } from './here.ts';
import { photoOf } from './photo.ts';
import { Report } from './report.tsx';
import { ShelfPicture } from './shelf-picture.tsx';
import { ShowAgain } from './show-again.tsx';
import type { TemplateTold } from './template-page.tsx';
import { useDoes } from './use-asked.ts';
import { usePages } from './use-pages.ts';
import { counted } from './words.ts';

type Built = AnswerOf<'built'>['built'][number];

interface BuiltListProps {
  readonly told: TemplateTold;
  readonly me: Me;
  /** One more was told of. */
  readonly onTold: () => void;
}

/** Who built it, in which size and with which changes; and telling that one did. */
export function BuiltList({ told, me, onTold }: BuiltListProps) {
  const { template, mine } = told;
  const { id } = template;
  const [telling, setTelling] = useState(false);
  const pages = usePages(
    useCallback(
      async (after, signal) => {
        const query = after === undefined ? {} : { after };
        const { built, next } = await askClub('built', { params: { template: id }, query }, signal);
        return { some: built, next };
      },
      [id],
    ),
  );
  return (
    <section className="shelf-part" aria-label="Built">
      <h3>Built {template.built === 0 ? '' : counted(template.built, 'time')}</h3>
      {pages.some === undefined ? (
        <OnItsWay says={pages.says} what="Reading who built it …" again={pages.again} />
      ) : (
        <>
          {pages.some.length === 0 ? (
            <p className="quiet">Nobody has told of building it yet.</p>
          ) : null}
          <ul className="shelf-built">
            {pages.some.map((one) => (
              <OneBuilt
                key={one.id}
                one={one}
                mayRemove={one.by.id === me.id || mine || me.role === 'keeper'}
                mayShow={me.role === 'keeper'}
                isMine={one.by.id === me.id}
                onGone={() => {
                  pages.again();
                  onTold();
                }}
              />
            ))}
          </ul>
          {pages.more === undefined ? null : (
            <p className="actions">
              <button type="button" className="button" onClick={pages.more}>
                Show more who built it
              </button>
            </p>
          )}
          <Complaint says={pages.says} />
        </>
      )}
      {telling ? (
        <Tell
          told={told}
          onDone={() => {
            setTelling(false);
            pages.again();
            onTold();
          }}
          onCancel={() => setTelling(false)}
        />
      ) : (
        <p className="actions">
          <button type="button" className="button" onClick={() => setTelling(true)}>
            I built it
          </button>
        </p>
      )}
    </section>
  );
}

interface OneBuiltProps {
  readonly one: Built;
  readonly mayRemove: boolean;
  /** Whoever looks can show again what was hidden. */
  readonly mayShow: boolean;
  readonly isMine: boolean;
  readonly onGone: () => void;
}

function OneBuilt({ one, mayRemove, mayShow, isMine, onGone }: OneBuiltProps) {
  const { id, by, revision, size, changed, photo, made, hidden } = one;
  const { busy, says, run } = useDoes();
  const remove = async (): Promise<void> => {
    if (await run(() => askClub('removeBuilt', { params: { built: id } }))) onGone();
  };
  return (
    <li>
      {photo === undefined ? null : (
        <ShelfPicture id={photo} says={`Built by ${by.name}, ${size}`} className="shelf-photo" />
      )}
      <p>
        <strong>{size}</strong>{' '}
        <span className="quiet">
          {by.name}, {momentOf(made)}, from revision {revision}
          {hidden === true ? ', hidden by a keeper of the shelf' : ''}
        </span>
      </p>
      {changed.trim() === '' ? null : <p className="shelf-words">{changed}</p>}
      <p className="actions">
        {mayRemove ? (
          <button
            type="button"
            className="button"
            disabled={busy}
            aria-label={`Remove what ${by.name} built`}
            onClick={() => void remove()}
          >
            Remove
          </button>
        ) : null}
        {isMine ? null : <Report of="built" id={id} what={`what ${by.name} built`} />}
      </p>
      {mayShow && hidden === true ? (
        <ShowAgain of="built" id={id} what={`what ${by.name} built`} onDone={onGone} />
      ) : null}
      <Complaint says={says} />
    </li>
  );
}

interface TellProps {
  readonly told: TemplateTold;
  readonly onDone: () => void;
  readonly onCancel: () => void;
}

function Tell({ told, onDone, onCancel }: TellProps) {
  const { template, revisions } = told;
  const [revision, setRevision] = useState(template.revision);
  const [size, setSize] = useState(template.card.size ?? '');
  const [changed, setChanged] = useState('');
  const [photo, setPhoto] = useState<File>();
  const names = useId();
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const done = await run(async () => {
      const letters = photo === undefined ? undefined : await photoOf(photo);
      return askClub('tellBuilt', {
        params: { template: template.id },
        body: {
          revision,
          size: size.trim(),
          changed: changed.trim(),
          ...(letters === undefined ? {} : { photo: letters }),
        },
      });
    });
    if (done) onDone();
  };
  return (
    <form className="shelf-form" onSubmit={(event) => void submit(event)}>
      <h4>I built it</h4>
      <label htmlFor={`${names} revision`}>From revision</label>
      <select
        id={`${names} revision`}
        className="field"
        value={revision}
        onChange={({ currentTarget }) => setRevision(Number(currentTarget.value))}
      >
        {[...revisions]
          .sort((a, b) => b.number - a.number)
          .map(({ number }) => (
            <option key={number} value={number}>
              {number}
            </option>
          ))}
      </select>
      <label htmlFor={`${names} size`}>Size you built</label>
      <input
        id={`${names} size`}
        className="field"
        value={size}
        required
        maxLength={80}
        autoComplete="off"
        onChange={(event) => setSize(event.target.value)}
      />
      <label htmlFor={`${names} changed`}>What you changed</label>
      <textarea
        id={`${names} changed`}
        className="field"
        rows={3}
        maxLength={2000}
        value={changed}
        onChange={(event) => setChanged(event.target.value)}
      />
      <label htmlFor={`${names} photo`}>Photo</label>
      <input
        id={`${names} photo`}
        type="file"
        accept="image/*"
        onChange={({ currentTarget }) => setPhoto(currentTarget.files?.[0])}
      />
      <p className="quiet">
        The photo is made smaller on this device, and the place and time that a camera writes into
        it stay here.
      </p>
      <Complaint says={says} />
      <p className="actions">
        <button type="submit" className="button button-main" disabled={busy || size.trim() === ''}>
          {busy ? 'Sending …' : 'Tell the club'}
        </button>
        <button type="button" className="button" onClick={onCancel}>
          Cancel
        </button>
      </p>
    </form>
  );
}
