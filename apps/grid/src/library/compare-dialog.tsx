import { type Bookcase, breath, shelfId, writeTrouble } from '@kerfbook/keeping';
import { type CompareSource, documentToCompare, listBooks } from '@kerfbook/keeping/shelf';
import { type At, type Compared, compared, LISTED_KINDS } from '@kerfbook/workbook';
import { useEffect, useId, useState } from 'react';
import type { Session } from '../session/session.ts';
import { Dialog } from './dialog.tsx';
import { Fold, Folded } from './folded.tsx';
import { counted, countedKinds } from './kinds.ts';
import { markCompared } from './marks.ts';
import { momentsOf } from './moments.ts';
import './renewal.css';

interface CompareDialogProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  /** Which one is compared with the workbook at hand from the start. */
  readonly start?: { readonly of: 'own' | 'template' | 'shelf'; readonly key: string };
  readonly onClose: () => void;
}

/** What differs between any two workbooks of this device, or two states of one. */
export default function CompareDialog(props: CompareDialogProps) {
  return (
    <Dialog title="Compare" onClose={props.onClose}>
      <CompareBody {...props} />
    </Dialog>
  );
}

/** A workbook that can be chosen. */
interface Choice {
  readonly key: string;
  readonly title: string;
  readonly source: CompareSource;
}

interface Group {
  readonly head: string;
  readonly choices: readonly Choice[];
}

const NOW: Choice = { key: 'now', title: 'This workbook', source: { of: 'now' } };

/** Two lists to choose from, and what differs. */
export function CompareBody({ session, bookcase, start, onClose }: CompareDialogProps) {
  const [groups, setGroups] = useState<readonly Group[]>();
  const [first, setFirst] = useState(start === undefined ? '' : `${start.of} ${start.key}`);
  const [second, setSecond] = useState(NOW.key);
  const [says, setSays] = useState<string>();
  const [found, setFound] = useState<{ readonly of: string; readonly compared: Compared }>();
  useEffect(() => {
    groupsOf(bookcase).then(setGroups, (error: unknown) =>
      setSays(`The list could not be read: ${writeTrouble(error)}`),
    );
  }, [bookcase]);
  const all = groups?.flatMap(({ choices }) => choices);
  const one = all?.find(({ key }) => key === first);
  const other = all?.find(({ key }) => key === second);
  const of = `${first} ${second}`;
  useEffect(() => {
    if (one === undefined || other === undefined || one === other) return;
    let here = true;
    const work = async (): Promise<void> => {
      setSays(undefined);
      const [was, is] = [
        await documentToCompare(bookcase, one.source),
        await documentToCompare(bookcase, other.source),
      ];
      if (!here) return;
      if (!was.ok || !is.ok) {
        setSays(was.ok ? (is.ok ? '' : is.says) : was.says);
        return;
      }
      // The words that it is being looked at are seen before that.
      await breath();
      const done = compared(was.document, is.document);
      if (here) setFound({ of, compared: done });
    };
    work().catch((error: unknown) => {
      if (here) setSays(writeTrouble(error));
    });
    return () => {
      here = false;
    };
  }, [bookcase, one, other, of]);
  if (groups === undefined) return <p className="quiet">{says ?? 'Reading the list …'}</p>;
  const result = found?.of === of ? found.compared : undefined;
  const isNow = second === NOW.key;
  return (
    <>
      <p className="quiet">
        Choose any two workbooks or versions. Compared with this workbook, what differs can be
        marked in the grid.
      </p>
      <div className="compare-choice">
        <Choose label="Compare" groups={groups} chosen={first} onChoose={setFirst} />
        <Choose label="with" groups={groups} chosen={second} onChoose={setSecond} />
      </div>
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      {one !== undefined && one === other ? <p>Choose two that are not the same.</p> : null}
      {one === undefined || other === undefined || one === other || says !== undefined ? null : (
        <Result
          result={result}
          first={one.title}
          second={other.title}
          {...(isNow
            ? {
                onGo: (at: At) => {
                  session.go(at);
                  onClose();
                },
                onMark: (marked: Compared) => {
                  markCompared(session, one.title, marked);
                  onClose();
                },
              }
            : {})}
        />
      )}
    </>
  );
}

interface ChooseProps {
  readonly label: string;
  readonly groups: readonly Group[];
  readonly chosen: string;
  readonly onChoose: (key: string) => void;
}

function Choose({ label, groups, chosen, onChoose }: ChooseProps) {
  const id = useId();
  return (
    <div>
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        className="field"
        value={chosen}
        onChange={({ currentTarget }) => onChoose(currentTarget.value)}
      >
        <option value="">Choose one</option>
        {groups.map(({ head, choices }) => (
          <optgroup key={head} label={head}>
            {choices.map(({ key, title }) => (
              <option key={key} value={key}>
                {title}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </div>
  );
}

interface ResultProps {
  readonly result: Compared | undefined;
  readonly first: string;
  readonly second: string;
  readonly onGo?: (at: At) => void;
  readonly onMark?: (result: Compared) => void;
}

/** What differs, in words, by kinds; and the way to see it in the grid. */
export function Result({ result, first, second, onGo, onMark }: ResultProps) {
  if (result === undefined) return <p className="quiet">Comparing …</p>;
  const { kin, turned, typed, results } = result;
  const go = onGo === undefined ? {} : { onGo };
  return (
    <div className="compared-result">
      {kin ? null : (
        <p>
          These two did not come of one workbook: they are compared by the names of their cells.
        </p>
      )}
      {turned ? <p>"{first}" counts in other units and was converted.</p> : null}
      <p aria-live="polite">
        {typed.length + results.length === 0
          ? 'They do not differ.'
          : `${typed.length === 0 ? 'Nothing was typed or set otherwise' : countedKinds(typed, LISTED_KINDS)}; ${results.length === 0 ? 'no result differs' : counted(results.length, 'result differs', 'results differ')} by that.`}
      </p>
      {onMark === undefined || typed.length + results.length === 0 ? null : (
        <p className="actions">
          <button type="button" className="button button-main" onClick={() => onMark(result)}>
            Mark in the grid
          </button>
        </p>
      )}
      <Folded all={typed} before={first} after={second} {...go} />
      {results.length === 0 ? null : (
        <Fold
          head="Results that differ"
          some={results}
          open={typed.length === 0 && results.length < 20}
          before={first}
          after={second}
          {...go}
        />
      )}
    </div>
  );
}

const isOnShelf = (key: string): boolean => shelfId(key) !== undefined;

async function groupsOf(bookcase: Bookcase): Promise<readonly Group[]> {
  const [listing, versions] = await Promise.all([listBooks(bookcase), bookcase.versions.list()]);
  const moments = momentsOf(versions.map(({ at }) => at));
  const own = listing.own.filter(({ id }) => id !== bookcase.current.id);
  const changed = momentsOf(own.map(({ updated }) => updated));
  const titles = own.map(({ title }) => title);
  const { lineage } = bookcase.current.book.head;
  const groups: Group[] = [
    { head: 'Open now', choices: [NOW] },
    {
      head: 'Versions of this workbook',
      choices: versions.map(({ key, name }, i) => ({
        key: `version ${key}`,
        title: [name ?? 'Autosaved', moments[i] ?? ''].filter((one) => one !== '').join(', '),
        source: { of: 'version', key },
      })),
    },
    {
      head: 'Yours',
      choices: own.map(({ id, title }, i) => ({
        key: `own ${id}`,
        // Two of one name are told apart by when they were changed.
        title: titles.filter((one) => one === title).length > 1 ? `${title}, ${changed[i]}` : title,
        source: { of: 'own', id },
      })),
    },
    {
      head: 'On the shelf',
      choices:
        bookcase.shelf === undefined || lineage?.key === undefined || !isOnShelf(lineage.key)
          ? []
          : [
              {
                key: `shelf ${lineage.key}`,
                title: lineage.template,
                source: { of: 'shelf', key: lineage.key },
              },
            ],
    },
    {
      head: 'Built-in templates',
      choices: listing.templates.map(({ key, title }) => ({
        key: `template ${key}`,
        title,
        source: { of: 'template', key },
      })),
    },
  ];
  return groups.filter(({ choices }) => choices.length > 0);
}
