import type { Bookcase } from '@kerfbook/keeping';
import type { ApplyEdit } from '@kerfbook/keeping/shelf';
import { loadLazy } from '@kerfbook/workbook';
import { Suspense, useCallback, useEffect, useState } from 'react';
import { afterGridModule } from '../page/after-grid.ts';
import { later } from '../page/later.tsx';
import { DecimalMarkChoice } from './decimal-mark-choice.tsx';
import { useFileDrop } from './file-drop.ts';
import { lateActions, NOT_ARRIVED } from './late-actions.ts';
import { originSentence } from './origin.ts';
import { SavedState } from './saved-state.tsx';
import { ThemeChoice } from './theme-choice.tsx';
import { useBookcase } from './use-bookcase.ts';
import './library.css';

const Workbooks = later(afterGridModule(() => import('./workbooks.tsx')));
const AtRisk = later(() => import('./at-risk.tsx'));
const SaveAs = later(afterGridModule(() => import('./save-as.tsx')));
const FileRefused = later(() => import('./file-refused.tsx'));
// It works out earlier states, and with all of the engine.
const VersionsDialog = later(async () => {
  const [module] = await Promise.all([import('./versions.tsx'), loadLazy()]);
  return module;
});

/** A dialog of the app's own, opened from the foot or by a key. */
export type Tool = 'find' | 'names' | 'keys' | 'print' | 'shop' | 'bench';

interface BookFootProps {
  readonly bookcase: Bookcase;
  readonly apply: ApplyEdit;
  readonly mayChange: boolean;
  /** Only inputs may be changed by hand. */
  readonly locked: boolean;
  /** What the workbook counts in. */
  readonly units: 'us' | 'metric';
  readonly onFunctions: () => void;
  readonly onTool: (tool: Tool) => void;
  /** Another workbook is open now and the way to it is closed: its cells take the keys. */
  readonly onOpened: () => void;
}

type Showing = 'workbooks' | 'unasked' | 'saveAs' | 'versions';

/** The workbook's title, where it came from, saved or not, and the way to the others. */
export function BookFoot(props: BookFootProps) {
  const { bookcase, apply, mayChange, locked, units, onFunctions, onTool, onOpened } = props;
  const { current, listAsked, keeping } = useBookcase(bookcase);
  const [showing, setShowing] = useState<Showing>();
  useEffect(() => {
    if (listAsked > 0) setShowing('unasked');
  }, [listAsked]);
  const [refused, setRefused] = useState<string>();
  const close = useCallback(() => setShowing(undefined), []);
  const opened = useCallback(() => {
    close();
    onOpened();
  }, [close, onOpened]);
  const takeFiles = useCallback(
    (files: readonly File[]) => {
      void importAll(bookcase, files).then((says) => {
        setRefused(says);
        if (says === undefined) opened();
      });
    },
    [bookcase, opened],
  );
  const over = useFileDrop(takeFiles);
  const { origin } = current;
  const shipped =
    origin.kind === 'template'
      ? bookcase.templates.find(({ key }) => key === origin.template)?.title
      : undefined;

  return (
    <section className="book-foot" aria-label="Workbook">
      <p className="book-title">{current.book.title}</p>
      <p className="book-origin quiet">{originSentence(origin, shipped)}</p>
      <SavedState bookcase={bookcase} />
      {locked ? <p className="quiet">It is locked: only its inputs can be changed.</p> : null}
      {keeping === 'atRisk' ? (
        <Suspense fallback={null}>
          <AtRisk bookcase={bookcase} />
        </Suspense>
      ) : null}
      <p className="actions">
        <button type="button" className="button" onClick={() => setShowing('workbooks')}>
          Workbooks
        </button>
        <button type="button" className="button" onClick={() => setShowing('saveAs')}>
          Save as mine
        </button>
        <button type="button" className="button" onClick={() => setShowing('versions')}>
          Versions
        </button>
        <button type="button" className="button" onClick={onFunctions}>
          Functions
        </button>
        <button type="button" className="button" onClick={() => onTool('names')}>
          Names
        </button>
        <button type="button" className="button" onClick={() => onTool('find')}>
          Find
        </button>
        <button type="button" className="button" onClick={() => onTool('keys')}>
          Keys
        </button>
        <button type="button" className="button" onClick={() => onTool('shop')}>
          Shop sheets
        </button>
        <button type="button" className="button" onClick={() => onTool('bench')}>
          At the bench
        </button>
        <button type="button" className="button" onClick={() => onTool('print')}>
          Print
        </button>
        {mayChange ? (
          <button
            type="button"
            className="button"
            onClick={() => apply({ do: 'setBook', set: { locked: locked ? null : true } })}
          >
            {locked ? 'Unlock' : 'Lock all but the inputs'}
          </button>
        ) : null}
        {mayChange && !locked ? (
          <button
            type="button"
            className="button"
            onClick={() => apply({ do: 'changeUnits', to: units === 'us' ? 'metric' : 'us' })}
          >
            {units === 'us' ? 'Change to millimetres' : 'Change to inches'}
          </button>
        ) : null}
      </p>
      <ThemeChoice store={bookcase.store} />
      <DecimalMarkChoice store={bookcase.store} />
      {showing === 'workbooks' || showing === 'unasked' ? (
        <Suspense fallback={null}>
          <Workbooks
            bookcase={bookcase}
            apply={apply}
            onSaveAs={() => setShowing('saveAs')}
            onFiles={takeFiles}
            onOpened={opened}
            onClose={close}
            unasked={showing === 'unasked'}
          />
        </Suspense>
      ) : null}
      {showing === 'versions' ? (
        <Suspense fallback={null}>
          <VersionsDialog
            bookcase={bookcase}
            apply={apply}
            mayChange={mayChange}
            locked={locked}
            onClose={close}
          />
        </Suspense>
      ) : null}
      {showing === 'saveAs' ? (
        <Suspense fallback={null}>
          <SaveAs bookcase={bookcase} onOpened={opened} onClose={close} />
        </Suspense>
      ) : null}
      {refused === undefined ? null : (
        <Suspense fallback={null}>
          <FileRefused says={refused} onClose={() => setRefused(undefined)} />
        </Suspense>
      )}
      {over ? <div className="drop-veil">Drop the file to open it as a workbook</div> : null}
    </section>
  );
}

/** Opens files one after the other; answers with the sentences of those that would not open. */
async function importAll(bookcase: Bookcase, files: readonly File[]): Promise<string | undefined> {
  const actions = await lateActions().catch(() => undefined);
  if (actions === undefined) return NOT_ARRIVED;
  const complaints: string[] = [];
  for (const file of files) {
    const done = await actions.importFile(bookcase, file);
    if (!done.ok) complaints.push(done.says);
  }
  return complaints.length === 0 ? undefined : complaints.join(' ');
}
