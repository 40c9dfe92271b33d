import { LIMITS, type Photo } from '@kerfbook/workbook';
import { useId, useRef, useState } from 'react';
import type { Seen } from './guide-page.tsx';
import { photoName, photoOf } from './photo-of.ts';
import { photosEdit, removeEdit, renameEdit, usersOf } from './photos.ts';
import type { StepsTable } from './steps-table.ts';
import { WordsField } from './words-field.tsx';

interface PhotosRoomProps {
  readonly seen: Seen;
  readonly table: StepsTable | undefined;
}

/** The photographs of the workbook: added from files, named, said what is seen on them, removed. */
export function PhotosRoom({ seen, table }: PhotosRoomProps) {
  const { session, book } = seen;
  const chooser = useRef<HTMLInputElement>(null);
  const [says, setSays] = useState<string>();
  const [busy, setBusy] = useState(false);
  const photos = Object.entries(book.head.photos ?? {});
  const take = async (files: readonly File[]): Promise<void> => {
    setSays(undefined);
    setBusy(true);
    try {
      for (const file of files) {
        const before = book.head.photos ?? {};
        if (Object.keys(before).length >= LIMITS.photos) {
          setSays(`A workbook holds ${LIMITS.photos} photographs at the most. Remove some first.`);
          return;
        }
        const made = await photoOf(file);
        if (!made.ok) {
          setSays(`${file.name}: ${made.says}`);
          continue;
        }
        const now = book.head.photos ?? {};
        const name = photoName(file.name, Object.keys(now));
        const done = session.apply(
          photosEdit({ ...now, [name]: { data: made.data } }),
          `The photograph "${name}" was added.`,
        );
        if (!done.ok) return;
      }
    } finally {
      setBusy(false);
    }
  };
  return (
    <div className="plan-room">
      <p className="quiet">
        A photograph is made smaller and written anew: where and when it was taken does not go
        along. It is kept in the workbook, at most {LIMITS.photos} of them.
      </p>
      <input
        ref={chooser}
        type="file"
        accept="image/jpeg,image/png,image/webp"
        multiple
        hidden
        aria-label="Photographs"
        onChange={({ currentTarget }) => {
          void take([...(currentTarget.files ?? [])]);
          // The same file chosen again is a new wish.
          currentTarget.value = '';
        }}
      />
      {session.mayChange ? (
        <p className="actions">
          <button
            type="button"
            className="button button-main"
            disabled={busy}
            onClick={() => chooser.current?.click()}
          >
            {busy ? 'Making them smaller …' : 'Add photographs'}
          </button>
        </p>
      ) : null}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      <ul className="plan-photos">
        {photos.map(([name, photo]) => (
          <OnePhoto key={name} seen={seen} table={table} name={name} photo={photo} />
        ))}
      </ul>
    </div>
  );
}

interface OnePhotoProps extends PhotosRoomProps {
  readonly name: string;
  readonly photo: Photo;
}

function OnePhoto({ seen, table, name, photo }: OnePhotoProps) {
  const { session, book } = seen;
  const [says, setSays] = useState<string>();
  const heading = useId();
  const users = usersOf(book, table, name);
  const rename = (to: string): boolean => {
    const edit = renameEdit(book, table, name, to.trim());
    if (typeof edit === 'string') {
      setSays(edit);
      return false;
    }
    const done = session.apply(edit, `The photograph "${name}" is named "${to.trim()}" now.`);
    setSays(done.ok ? undefined : done.says);
    return done.ok;
  };
  const describe = (text: string): boolean => {
    const said = text.trim();
    const next: Photo = { ...(said === '' ? {} : { says: said }), data: photo.data };
    return session.apply(
      photosEdit({ ...book.head.photos, [name]: next }),
      `What is seen on the photograph "${name}" was written.`,
    ).ok;
  };
  return (
    <li aria-labelledby={heading}>
      <h3 id={heading} className="visually-hidden">
        {name}
      </h3>
      <img src={photo.data} alt={photo.says ?? `Photograph ${name}`} />
      <div>
        <WordsField session={session} label="Name" value={name} most={40} onEnter={rename} />
        {says === undefined ? null : (
          <p className="complaint" role="alert">
            {says}
          </p>
        )}
        <WordsField
          session={session}
          label="What is seen on it"
          value={photo.says ?? ''}
          most={200}
          hint="Read aloud to whoever does not see it."
          onEnter={describe}
        />
        <p className="quiet">
          {users.length === 0
            ? 'In no step yet.'
            : `In ${users.map(({ title, numbers }) => (numbers === undefined ? title : `step ${numbers}`)).join(', ')}.`}
        </p>
        {session.mayChange ? (
          <button
            type="button"
            className="button button-danger"
            onClick={() =>
              session.apply(
                removeEdit(book, table, name),
                `The photograph "${name}" was removed${users.length === 0 ? '' : ', from its steps too'}.`,
              )
            }
          >
            Remove
          </button>
        ) : null}
      </div>
    </li>
  );
}
