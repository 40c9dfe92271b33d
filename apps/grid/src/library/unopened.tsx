import { errorInWords, type VersionHead } from '@kerfbook/keeping';
import {
  allAsStored,
  lastThatOpens,
  momentOf,
  openVersion,
  type TakenOut,
  textAsStored,
} from '@kerfbook/keeping/shelf';
import { useEffect, useRef, useState } from 'react';
import { download } from '../storage/download.ts';
import { Press, type RowTools } from './book-rows.tsx';

interface UnopenedProps {
  readonly id: string;
  readonly title: string;
  /** Why it could not be opened. */
  readonly says: string;
  readonly tools: RowTools;
}

/** For a workbook that cannot be opened: why, and everything that can be had of it. */
export default function Unopened({ id, title, says, tools }: UnopenedProps) {
  const { bookcase, run, open, opened } = tools;
  const [version, setVersion] = useState<VersionHead | 'none'>();
  const [trouble, setTrouble] = useState<string>();
  const first = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    lastThatOpens(bookcase, id).then(
      (head) => setVersion(head ?? 'none'),
      () => setVersion('none'),
    );
  }, [bookcase, id]);
  useEffect(() => {
    // The list came unasked, for the sake of this workbook: the keys go to what can be done about it.
    const idle = document.activeElement?.closest('.dialog-head, body > :not(dialog)');
    const unused = idle !== null || document.activeElement?.tagName === 'DIALOG';
    if (tools.unasked && version !== undefined && unused) {
      first.current?.querySelector('button')?.focus();
    }
  }, [tools.unasked, version]);
  const take = (what: () => Promise<TakenOut | undefined>) => () => {
    what().then(
      (file) => {
        setTrouble(file === undefined ? 'No text of it is stored on this device.' : undefined);
        if (file !== undefined) download(file.fileName, file.text);
      },
      (error: unknown) => setTrouble(`The browser could not read it (${errorInWords(error)}).`),
    );
  };
  return (
    <div className="unopened">
      <p className="complaint">
        <strong>It could not be opened.</strong> {says}
      </p>
      <p className="quiet">{versionWords(version)} What is stored stays as it is.</p>
      <p className="actions" ref={first}>
        {version === undefined || version === 'none' ? null : (
          <Press
            name={title}
            does={`Open the version of ${momentOf(version.at, bookcase.now())}`}
            main
            onPress={() =>
              void run(() => openVersion(bookcase, id, title, version)).then((done) => {
                if (done.ok) opened();
              })
            }
          />
        )}
        <Press
          name={title}
          does="Save its text as a file"
          onPress={take(() => textAsStored(bookcase, id, title))}
        />
        <Press
          name={title}
          does="Save all that is kept of it as a file"
          onPress={take(() => allAsStored(bookcase, id, title))}
        />
        <Press name={title} does="Try to open it again" onPress={() => open(id)} />
      </p>
      {trouble === undefined ? null : (
        <p className="complaint" role="alert">
          {trouble}
        </p>
      )}
    </div>
  );
}

function versionWords(version: VersionHead | 'none' | undefined): string {
  if (version === undefined) return 'Looking for a version of it that opens.';
  if (version === 'none') return 'No earlier version of it opens.';
  return 'Its last version that opens becomes a workbook of its own.';
}
