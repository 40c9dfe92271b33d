import { errorInWords, NothingToShow } from '@kerfbook/keeping';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import { Boundary } from './app/boundary.tsx';
import { keepForOffline } from './offline/offline.ts';
import { takeJoinCode } from './page/join-code.ts';
import { readPage } from './page/kept-page.ts';
import { servedByClub } from './page/served-by-club.ts';
import { startBookcase } from './storage/start.ts';
import './styles/base.css';
import './styles/print.css';
import './app/app.css';
import './app/phone.css';

const home = document.getElementById('root');
if (home === null) throw new Error('the page has no place for the app');
const page = createRoot(home);
// At once: it is a secret, and must not stand in the address any longer than that.
const joins = servedByClub && takeJoinCode();

// Not awaited here: parts that a workbook waits for import this module's file, which would then wait
// for them.
startBookcase().then(
  async (bookcase) => {
    // Known before the page is drawn: what comes later would come under a hand that is at work.
    const startsAt = joins ? 'shelf' : await readPage(bookcase);
    if (servedByClub) {
      bookcase.shelf = { now: async (id) => (await import('./club/shelf-now.ts')).shelfNow(id) };
    }
    page.render(
      <StrictMode>
        <Boundary what="The workbook">
          <App bookcase={bookcase} startsAt={startsAt} />
        </Boundary>
      </StrictMode>,
    );
    keepForOffline();
  },
  (error: unknown) => {
    console.error(error);
    page.render(
      <p className="broken" role="alert">
        {error instanceof NothingToShow ? (
          <>
            Kerfbook could not be started: a part of it did not load. Check your connection, then
            reload the page.
          </>
        ) : (
          <>Kerfbook could not be started ({errorInWords(error)}). Reload the page.</>
        )}{' '}
        Your workbooks are safe on this device.
      </p>,
    );
  },
);
