import type { WorkerLine } from './messages.ts';
import { serveSweeps } from './serve.ts';

/** What of a web worker's world is used here; no other code of this package knows one. */
interface WorkerWorld {
  postMessage(message: unknown): void;
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
  readonly MessageChannel: new () => {
    readonly port1: { onmessage: (() => void) | null };
    readonly port2: { postMessage(message: unknown): void };
  };
}

/** Messages that came before it is sent are heard first; a timer would wait longer each time. */
function turnsOf({ MessageChannel }: WorkerWorld): WorkerLine['turn'] {
  const { port1, port2 } = new MessageChannel();
  let next: () => void = () => undefined;
  port1.onmessage = () => next();
  return () =>
    new Promise((resolve) => {
      next = resolve;
      port2.postMessage(undefined);
    });
}

/** Sweeps for the page that started this module worker. */
export function serveInWorker(): void {
  const world = globalThis as unknown as WorkerWorld;
  serveSweeps({
    send: (message) => world.postMessage(message),
    hear: (listener) => world.addEventListener('message', ({ data }) => listener(data)),
    turn: turnsOf(world),
  });
}
