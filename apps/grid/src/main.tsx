import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import { keepForOffline } from './offline/offline.ts';
import { startBookcase } from './storage/start.ts';
import './styles/base.css';
import './styles/print.css';
import './app/app.css';

const home = document.getElementById('root');
if (home === null) throw new Error('the page has no place for the app');

const bookcase = await startBookcase();
createRoot(home).render(
  <StrictMode>
    <App bookcase={bookcase} />
  </StrictMode>,
);
keepForOffline();
