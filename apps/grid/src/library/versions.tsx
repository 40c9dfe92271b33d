import { type Bookcase, DONE, notDone, type VersionHead, writeTrouble } from '@kerfbook/keeping';
import { type ApplyEdit, copyWithVersions } from '@kerfbook/keeping/shelf';
import { type Compared, compared, loadText } from '@kerfbook/workbook';
import { useCallback, useEffect, useState } from 'react';
import type { Session } from '../session/session.ts';
import { download } from '../storage/download.ts';
import { Press } from './book-rows.tsx';
import { Result } from './compare-dialog.tsx';
import { Dialog } from './dialog.tsx';
import { markCompared } from './marks.ts';
import { momentsOf } from './moments.ts';
import { NameForm } from './name-form.tsx';

interface VersionsProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly apply: ApplyEdit;
  readonly mayChange: boolean;
  /** Only inputs may be changed: no other state can be gone back to. */
  readonly locked: boolean;
  readonly onClose: () => void;
}

/** Earlier states of the workbook: kept by name or by the app, to be compared and gone back to. */
export default function VersionsDialog(props: VersionsProps) {
  const { session, bookcase, apply, mayChange, locked, onClose } = props;
  const { versions } = bookcase;
  const [heads, setHeads] = useState<readonly VersionHead[]>();
  const [naming, setNaming] = useState(false);
  const [found, setFound] = useState<{ readonly key: string; readonly found: Compared }>();
  const [says, setSays] = useState<string>();
  const refresh = useCallback(() => {
    versions.list().then(setHeads, (error: unknown) => setSays(writeTrouble(error)));
  }, [versions]);
  useEffect(refresh, [refresh]);

  const stateOf = async (head: VersionHead) => {
    const text = await versions.text(head.key).catch(() => undefined);
    const loaded = text === undefined ? undefined : loadText(text);
    if (loaded?.ok === true) return loaded.document;
    setSays(loaded?.says ?? 'That version is not on this device any more.');
    return undefined;
  };
  const compare = async (head: VersionHead) => {
    const was = await stateOf(head);
    if (was === undefined) return;
    setFound({ key: head.key, found: compared(was, bookcase.current.book.document()) });
  };
  const goBack = async (head: VersionHead) => {
    const was = await stateOf(head);
    if (was === undefined) return;
    try {
      await versions.keep(bookcase.textOfCurrent());
    } catch (error) {
      setSays(
        `Nothing was changed: the workbook as it is now could not be saved as a version first. ${writeTrouble(error)}`,
      );
      return;
    }
    const result = apply({ do: 'become', book: was });
    if (result.ok) onClose();
    else setSays(result.says);
  };

  const moments = momentsOf((heads ?? []).map(({ at }) => at));
  return (
    <Dialog title="Versions" onClose={onClose}>
      <p className="quiet">
        A version is saved when you open the workbook and after every fifty changes. Going back to
        one can be undone.
        {locked
          ? ' Formulas are locked: choose "Unlock formulas" in the menu to go back to one.'
          : ''}
      </p>
      <p className="actions">
        {mayChange ? (
          <button type="button" className="button" onClick={() => setNaming(true)}>
            Save a version
          </button>
        ) : null}
        <button
          type="button"
          className="button"
          onClick={() => {
            copyWithVersions(bookcase).then(
              ({ fileName, text }) => download(fileName, text),
              (error: unknown) => setSays(writeTrouble(error)),
            );
          }}
        >
          Save a file with all versions
        </button>
      </p>
      {naming ? (
        <NameForm
          label="Version name"
          start=""
          does="Save version"
          onName={async (name) => {
            if (name.trim() === '') return notDone('A version needs a name. Type one.');
            await versions.keep(bookcase.textOfCurrent(), name.trim());
            setNaming(false);
            refresh();
            return DONE;
          }}
          onCancel={() => setNaming(false)}
        />
      ) : null}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      {heads === undefined ? <p className="quiet">Reading the list …</p> : null}
      {heads?.length === 0 ? <p className="quiet">No versions yet.</p> : null}
      <ul className="versions">
        {heads?.map((head, i) => {
          const name = head.name ?? 'Autosaved';
          const when = moments[i] ?? '';
          const which = when === '' ? name : `${name}, ${when}`;
          return (
            <li key={head.key}>
              <span>
                <strong>{name}</strong>{' '}
                <time dateTime={new Date(head.at).toISOString()}>{when}</time>
              </span>
              <span className="actions">
                <Press name={which} does="Compare with now" onPress={() => void compare(head)} />
                {mayChange && !locked ? (
                  <Press name={which} does="Go back to this" onPress={() => void goBack(head)} />
                ) : null}
              </span>
              {found?.key === head.key ? (
                <Result
                  result={found.found}
                  first={name}
                  second="Now"
                  onGo={(at) => {
                    session.go(at);
                    onClose();
                  }}
                  onMark={(marked) => {
                    markCompared(session, which, marked);
                    onClose();
                  }}
                />
              ) : null}
            </li>
          );
        })}
      </ul>
    </Dialog>
  );
}
