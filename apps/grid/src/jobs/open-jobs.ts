import { type Bookcase, breath, errorInWords } from '@kerfbook/keeping';
import { jobDocument } from '@kerfbook/keeping/shelf';
import { type OpenWorkbook, Workbook } from '@kerfbook/workbook';
import { useEffect, useRef, useState } from 'react';
import type { Session } from '../session/session.ts';
import type { JobLine } from './job-list.ts';

/** The workbooks of some jobs, opened beside the one at hand. */
export interface OpenedJobs {
  /** Those that are open, in the order of the jobs. */
  readonly books: readonly { readonly line: JobLine; readonly book: OpenWorkbook }[];
  /** How many are still to be opened. */
  readonly left: number;
  /** Why one of them cannot be opened. */
  readonly troubles: readonly string[];
}

const NONE: OpenedJobs = { books: [], left: 0, troubles: [] };

/** Opens the workbooks of these jobs one after the other, with a breath between; each once for each of its states. */
export function useOpenJobs(
  session: Session,
  bookcase: Bookcase,
  lines: readonly JobLine[],
  changes: number,
): OpenedJobs {
  const kept = useRef(new Map<string, OpenWorkbook>());
  const [opened, setOpened] = useState(NONE);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook at hand changes within
  useEffect(() => {
    let stopped = false;
    const open = async (): Promise<void> => {
      const books: OpenedJobs['books'][number][] = [];
      const troubles: string[] = [];
      for (const [i, line] of lines.entries()) {
        try {
          const book = await bookOf(session, bookcase, line, kept.current);
          if (stopped) return;
          books.push({ line, book });
        } catch (error) {
          if (stopped) return;
          troubles.push(`"${line.title}" could not be opened: ${errorInWords(error)}`);
        }
        setOpened({ books: [...books], left: lines.length - i - 1, troubles: [...troubles] });
      }
      if (lines.length === 0) setOpened(NONE);
    };
    void open();
    return () => {
      stopped = true;
    };
  }, [session, bookcase, lines, changes]);
  return opened;
}

async function bookOf(
  session: Session,
  bookcase: Bookcase,
  line: JobLine,
  kept: Map<string, OpenWorkbook>,
): Promise<OpenWorkbook> {
  if (line.id === bookcase.current.id) return session.settled();
  const key = `${line.id} ${line.updated}`;
  const before = kept.get(key);
  if (before !== undefined) return before;
  await breath();
  const document = await jobDocument(bookcase, line.id);
  if ('says' in document) throw new Error(document.says);
  const book = Workbook.open(document);
  kept.set(key, book);
  return book;
}
