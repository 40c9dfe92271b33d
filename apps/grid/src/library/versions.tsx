import { type Bookcase, DONE, notDone, type VersionHead, writeTrouble } from '@kerfbook/keeping';
import { type ApplyEdit, copyWithVersions } from '@kerfbook/keeping/shelf';
import { compareBooks, type Difference, loadText } from '@kerfbook/workbook';
import { useCallback, useEffect, useState } from 'react';
import { download } from '../storage/download.ts';
import { Press } from './book-rows.tsx';
import { Dialog } from './dialog.tsx';
import { momentsOf } from './moments.ts';
import { NameForm } from './name-form.tsx';

interface VersionsProps {
  readonly bookcase: Bookcase;
  readonly apply: ApplyEdit;
  readonly mayChange: boolean;
  /** Only inputs may be changed: no other state can be gone back to. */
  readonly locked: boolean;
  readonly onClose: () => void;
}

/** Earlier states of the workbook: kept by name or by the app, to be compared and gone back to. */
export default function VersionsDialog(props: VersionsProps) {
  const { bookcase, apply, mayChange, locked, onClose } = props;
  const { versions } = bookcase;
  const [heads, setHeads] = useState<readonly VersionHead[]>();
  const [naming, setNaming] = useState(false);
  const [compared, setCompared] = useState<Compared>();
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
    setCompared({ head, differences: compareBooks(was, bookcase.current.book) });
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
              {compared?.head.key === head.key ? <Compare {...compared} /> : null}
            </li>
          );
        })}
      </ul>
    </Dialog>
  );
}

interface Compared {
  readonly head: VersionHead;
  readonly differences: readonly Difference[];
}

const SHOWN = 200;

function Compare({ differences }: Compared) {
  if (differences.length === 0) return <p className="quiet">Nothing has changed since.</p>;
  return (
    <div className="compared">
      <p className="quiet">
        {differences.length === 1 ? '1 difference' : `${differences.length} differences`}
        {differences.length > SHOWN ? `; the first ${SHOWN} are shown` : ''}
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col">Then</th>
            <th scope="col">Now</th>
          </tr>
        </thead>
        <tbody>
          {differences.slice(0, SHOWN).map(({ address, label, before, after, kind }) => (
            <tr key={`${kind} ${address}`} data-kind={kind}>
              <th scope="row">
                {label} <span className="quiet">{address}</span>
              </th>
              <td>{before === '' ? <span className="quiet">empty</span> : before}</td>
              <td>{after === '' ? <span className="quiet">empty</span> : after}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
