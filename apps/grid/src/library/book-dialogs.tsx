import type { Bookcase } from '@kerfbook/keeping';
import { loadLazy } from '@kerfbook/workbook';
import { type ComponentType, Suspense, useCallback, useEffect, useState } from 'react';
import type { Showing } from '../page/activity.ts';
import { afterGrid, afterGridModule } from '../page/after-grid.ts';
import { takeComing } from '../page/coming-files.ts';
import { later } from '../page/later.tsx';
import type { Session } from '../session/session.ts';
import type { Offer } from '../session/types.ts';
import { useFileDrop } from './file-drop.ts';
import { lateActions, NOT_ARRIVED } from './late-actions.ts';
import { useBookcase } from './use-bookcase.ts';
import './library.css';

const Workbooks = later(afterGridModule(() => import('./workbooks.tsx')));
const SaveAs = later(afterGridModule(() => import('./save-as.tsx')));
const TitlePanel = later(afterGridModule(() => import('./title-panel.tsx')));
const AboutForm = later(async () => ({ default: (await import('./about-form.tsx')).AboutForm }));
// Its sheets are worked out with all of the engine, and with the way two workbooks are put together.
const JoinSheets = later(async () => {
  const [module] = await Promise.all([import('./join-sheets.tsx'), loadLazy()]);
  return module;
});
// Drawn from the start, since the address may bring a workbook: it must not be loaded before the grid.
const Links = later(async () => {
  await afterGrid;
  return import('./links.tsx');
});
const FileRefused = later(() => import('./file-refused.tsx'));
// It works out earlier states, and with all of the engine.
const VersionsDialog = later(async () => {
  const [module] = await Promise.all([import('./versions.tsx'), loadLazy()]);
  return module;
});
// These work out two workbooks or more, with all of the engine.
const RenewalDialog = later(async () => {
  const [module] = await Promise.all([import('./renewal-dialog.tsx'), loadLazy()]);
  return module;
});
const ShopDialog = later(async () => {
  const [module] = await Promise.all([import('./shop-dialog.tsx'), loadLazy()]);
  return module;
});
const CompareDialog = later(async () => {
  const [module] = await Promise.all([import('./compare-dialog.tsx'), loadLazy()]);
  return module;
});

/** What asks about a file of another program before it is taken in. */
export interface ForeignFileProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly file: File;
  /** Another workbook is open, or this one has the sheets. */
  readonly onTaken: () => void;
  readonly onClose: () => void;
}

interface BookDialogsProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  /** The dialog that is open. */
  readonly showing: Showing | undefined;
  readonly onShow: (showing: Showing | undefined) => void;
  /** Turns to the jobs of all workbooks. */
  readonly onJobs: () => void;
  /** Another workbook is open now, or what was asked for is done: the cells take the keys. */
  readonly onOpened: () => void;
  readonly ForeignFile: ComponentType<ForeignFileProps>;
}

/** The dialogs about workbooks, and files dropped on the page. */
export function BookDialogs(props: BookDialogsProps) {
  const { session, bookcase, showing, onShow, onJobs, onOpened, ForeignFile } = props;
  const { listAsked } = useBookcase(bookcase);
  useEffect(() => {
    if (listAsked > 0) onShow('unasked');
  }, [listAsked, onShow]);
  const [refused, setRefused] = useState<string>();
  // Which one was chosen in the list to be compared with the one at hand.
  const [compareWith, setCompareWith] = useState<string>();
  const close = useCallback(() => {
    setCompareWith(undefined);
    onShow(undefined);
  }, [onShow]);
  const opened = useCallback(() => {
    close();
    onOpened();
  }, [close, onOpened]);
  const saved = useCallback(
    (offer: Offer) => {
      opened();
      session.offer(offer);
    },
    [opened, session],
  );
  // Files of other programs, of which the first is asked about.
  const [foreign, setForeign] = useState<readonly File[]>([]);
  const takeFiles = useCallback(
    (files: readonly File[]) => {
      setForeign(files.filter(isForeign));
      const own = files.filter((file) => !isForeign(file));
      if (own.length === 0) return;
      void importAll(bookcase, own).then((says) => {
        setRefused(says);
        if (says === undefined) opened();
      });
    },
    [bookcase, opened],
  );
  useEffect(() => takeComing(takeFiles), [takeFiles]);
  const nextForeign = useCallback(() => setForeign((all) => all.slice(1)), []);
  const over = useFileDrop(takeFiles);
  const { apply, mayChange, book } = session;
  return (
    <Suspense fallback={null}>
      {showing === 'title' ? (
        <TitlePanel session={session} bookcase={bookcase} onShow={onShow} onClose={close} />
      ) : null}
      {showing === 'about' ? <AboutForm session={session} onClose={close} /> : null}
      {showing === 'workbooks' || showing === 'unasked' ? (
        <Workbooks
          bookcase={bookcase}
          apply={apply}
          onSaveAs={() => onShow('saveAs')}
          onCompare={(id) => {
            setCompareWith(id);
            onShow('compare');
          }}
          onFiles={takeFiles}
          onJobs={() => {
            close();
            onJobs();
          }}
          onOpened={opened}
          onClose={close}
          unasked={showing === 'unasked'}
        />
      ) : null}
      {showing === 'versions' ? (
        <VersionsDialog
          bookcase={bookcase}
          apply={apply}
          mayChange={mayChange}
          locked={book.locked}
          session={session}
          onClose={close}
        />
      ) : null}
      {showing === 'renewal' ? (
        <RenewalDialog session={session} bookcase={bookcase} onClose={close} />
      ) : null}
      {showing === 'shop' ? (
        <ShopDialog session={session} bookcase={bookcase} onShow={onShow} onClose={close} />
      ) : null}
      {showing === 'compare' ? (
        <CompareDialog
          session={session}
          bookcase={bookcase}
          {...(compareWith === undefined
            ? {}
            : { start: { of: 'own', key: compareWith } as const })}
          onClose={close}
        />
      ) : null}
      {showing === 'saveAs' ? <SaveAs bookcase={bookcase} onSaved={saved} onClose={close} /> : null}
      {showing === 'join' ? (
        <JoinSheets session={session} bookcase={bookcase} onClose={close} />
      ) : null}
      <Links
        session={session}
        bookcase={bookcase}
        showing={showing}
        onShow={onShow}
        onOpened={opened}
      />
      {foreign[0] === undefined ? null : (
        <ForeignFile
          key={foreign.length}
          session={session}
          bookcase={bookcase}
          file={foreign[0]}
          onTaken={() => {
            nextForeign();
            opened();
          }}
          onClose={nextForeign}
        />
      )}
      {refused === undefined ? null : (
        <FileRefused says={refused} onClose={() => setRefused(undefined)} />
      )}
      {over ? <div className="drop-veil">Drop the file to open it as a workbook</div> : null}
    </Suspense>
  );
}

/** Whether a file is one of another program, by its name. */
const isForeign = ({ name }: File): boolean =>
  /\.(?:xl[st][xm]|o[dt]s|csv|tsv|tab|txt)$/i.test(name);

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
