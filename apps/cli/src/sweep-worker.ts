import { parentPort } from 'node:worker_threads';
import { serveSweeps } from '@kerfbook/workbook/sweep';

/** The thread in which `kerfbook study` and `seek` work their workbook out. */
const port = parentPort;
if (port === null) throw new Error('sweep-worker runs in a thread of its own');
serveSweeps({
  send: (message) => port.postMessage(message),
  hear: (listener) => port.on('message', listener),
  turn: () => new Promise((resolve) => setImmediate(resolve)),
});
