import { serveInWorker } from './in-worker.ts';

/** Run as a module worker of a page. */
serveInWorker();
