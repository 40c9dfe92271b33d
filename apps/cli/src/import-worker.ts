import { parentPort, workerData } from 'node:worker_threads';
import { importFile } from '@kerfbook/interchange';
import type { ImportAsked } from './import-thread.ts';

/** The thread in which `kerfbook import` reads a file of others; how much it may take, who starts it says. */
const port = parentPort;
if (port === null) throw new Error('import-worker runs in a thread of its own');
const { bytes, name, how } = workerData as ImportAsked;
const { isBare, ...more } = how;
port.postMessage(importFile(bytes, name, { ...more, ...(isBare ? { takes: () => false } : {}) }));
