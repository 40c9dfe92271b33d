import { DONE, fileNameFor, timeOfDay } from '@kerfbook/keeping';
import { bringUpToDate, momentOf, type SetAside, setAside } from '@kerfbook/keeping/shelf';
import { useCallback, useEffect, useState } from 'react';
import { download } from '../storage/download.ts';
import { Press, Question, type RowTools } from './book-rows.tsx';
import type { Standing } from './change-words.ts';
import { editInWords } from './edit-words.ts';

interface SetAsideProps {
  readonly id: string;
  readonly title: string;
  /** Where they are kept. */
  readonly keys: readonly string[];
  readonly tools: RowTools;
}

/** Changes that could not be put back when a workbook was opened: to be read, taken out, removed. */
export default function SetAsideEdits({ id, title, keys, tools }: SetAsideProps) {
  const { bookcase, run } = tools;
  const [found, setFound] = useState<readonly SetAside[]>();
  const [book, setBook] = useState<Standing>();
  const [shown, setShown] = useState(false);
  const [asking, setAsking] = useState<boolean>();
  const read = useCallback(async () => {
    setFound(await setAside(bookcase, id));
    setBook(await standing(bookcase, id));
  }, [bookcase, id]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read anew when other edits are kept
  useEffect(() => void read().catch(() => setFound([])), [read, keys.join()]);
  if (found === undefined || book === undefined) return null;
  const edits = found.flatMap((one) => one.edits);
  const many = edits.length === 1 ? '1 change' : `${edits.length} changes`;
  const remove = () =>
    run(async () => {
      await bookcase.store.setAll(new Map(found.map(({ key }) => [key, undefined])));
      return DONE;
    });
  return (
    <div className="set-aside">
      <p className="quiet">
        {many} could not be put back {found.length === 0 ? '' : `(${moments(found, bookcase)})`} and{' '}
        {edits.length === 1 ? 'is' : 'are'} kept here.
      </p>
      {shown ? (
        <ol aria-label={`Changes of ${title} that could not be put back`}>
          {edits.map(({ edit, at }, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: they have no other order, and it stays
            <li key={i}>
              {editInWords(edit, book).map((line, k) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: lines of one edit
                <span key={k}>{line}</span>
              ))}
              {at === 0 ? null : <span className="quiet">{timeOfDay(at)}</span>}
            </li>
          ))}
        </ol>
      ) : null}
      {asking === true ? (
        <Question
          says={`Remove ${many} of "${title}" that could not be put back? The workbook stays as it is.`}
          does={`Remove ${many}`}
          onYes={() => {
            setAsking(undefined);
            void remove();
          }}
          onNo={() => setAsking(false)}
        />
      ) : (
        <p className="actions">
          <Press
            name={title}
            does={shown ? 'Hide these changes' : 'Show these changes'}
            onPress={() => setShown(!shown)}
          />
          <Press
            name={title}
            does="Save these changes as a file"
            onPress={() =>
              download(
                fileNameFor(`${title} set aside`),
                `${JSON.stringify({ 'kerfbook-set-aside': 1, of: title, changes: edits.map((one) => ({ ...one, says: editInWords(one.edit, book) })) }, null, 2)}\n`,
              )
            }
          />
          <Press
            name={title}
            does="Remove these changes"
            destroys
            takesKeys={asking === false}
            onPress={() => setAsking(true)}
          />
        </p>
      )}
    </div>
  );
}

function moments(found: readonly SetAside[], { now }: RowTools['bookcase']): string {
  return [...new Set(found.map(({ at }) => momentOf(at, now())))].join(' and ');
}

/** The workbook as it is in hand or kept; nothing of it where it cannot be read. */
async function standing(bookcase: RowTools['bookcase'], id: string): Promise<Standing> {
  const here = bookcase.inHand(id)?.book.document();
  if (here !== undefined) return here;
  const kept = await bookcase.store.read(id).catch(() => undefined);
  const result = kept === undefined ? undefined : bringUpToDate(kept);
  return result?.ok === true ? result.brought.document : { sheets: [], checks: [] };
}
