import { MessageChannel } from 'node:worker_threads';
import { importFile } from '@kerfbook/interchange';
import { Sweeper, serveSweeps } from '@kerfbook/workbook/sweep';
import type { Io, SweepThread } from '../io.ts';
import { run } from '../main.ts';

/** What a call of the command line left behind. */
export interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** Files that were written, by path; left out where none was. */
  readonly written?: Readonly<Record<string, string>>;
  /** The same of files that are no text. */
  readonly bytes?: Readonly<Record<string, Uint8Array>>;
}

/** Sweeps within this thread; what goes over the line is copied all the same. */
function sweepHere(): SweepThread {
  const { port1, port2 } = new MessageChannel();
  serveSweeps({
    send: (message) => port2.postMessage(message),
    hear: (listener) => port2.on('message', listener),
    turn: () => new Promise((resolve) => setImmediate(resolve)),
  });
  const sweeper = new Sweeper({
    send: (message) => port1.postMessage(message),
    hear: (listener) => port1.on('message', listener),
  });
  return { sweeper, end: async () => port1.close() };
}

/** What the clock shows in every call: a Sunday evening. */
const NOW = new Date(2026, 10, 29, 20, 15);

/** Calls the command line with files and settings that exist only here; `interrupt` is asked for a moment to stop at. */
export async function call(
  argv: readonly string[],
  files: Readonly<Record<string, string | Uint8Array>> = {},
  interrupt: (stop: () => void) => void = () => undefined,
  settings: Readonly<Record<string, string>> = {},
): Promise<Ended> {
  const out: string[] = [];
  const err: string[] = [];
  const written: Record<string, string> = {};
  const bytes: Record<string, Uint8Array> = {};
  const io: Io = {
    write: async (path, text, force) => {
      if (path in files && !force) return `${path} is there already.`;
      if (typeof text === 'string') written[path] = text;
      else bytes[path] = text;
      return undefined;
    },
    out: (line) => out.push(line),
    err: (line) => err.push(line),
    setting: (name) => settings[name],
    now: () => NOW,
    startSweepThread: sweepHere,
    importFile: async ({ bytes: file, name, how: { isBare, ...how } }) =>
      importFile(file, name, { ...how, ...(isBare ? { takes: () => false } : {}) }),
    threads: 2,
    whenInterrupted: (stop) => {
      interrupt(stop);
      return () => undefined;
    },
    read: async (path) => {
      const file = files[path];
      if (file === undefined) return absent(path);
      return { ok: true, text: typeof file === 'string' ? file : new TextDecoder().decode(file) };
    },
    readBytes: async (path) => {
      const file = files[path];
      if (file === undefined) return absent(path);
      return { ok: true, bytes: typeof file === 'string' ? new TextEncoder().encode(file) : file };
    },
  };
  const code = await run(argv, io);
  return {
    code,
    out: out.join('\n'),
    err: err.join('\n'),
    ...(Object.keys(written).length === 0 ? {} : { written }),
    ...(Object.keys(bytes).length === 0 ? {} : { bytes }),
  };
}

const absent = (path: string) =>
  ({ ok: false, says: `${path} cannot be read: there is no such file.` }) as const;

/** A small bench: its apron follows the top's length, and a check keeps it from growing too long. */
export const bench = {
  kerfbook: 8,
  title: 'An invented bench',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Base',
      columns: [{ id: 'c1' }, { id: 'c2' }],
      rows: [
        {
          id: 'r1',
          cells: { c2: { value: 60, quantity: 'length', role: 'input', name: 'bench_length' } },
        },
        {
          id: 'r2',
          cells: { c2: { value: 3.5, quantity: 'length', role: 'input', name: 'leg_size' } },
        },
        {
          id: 'r3',
          cells: {
            c2: {
              formula: '=APRON_LENGTH(bench_length, 2, leg_size)',
              quantity: 'length',
              role: 'calculated',
              name: 'apron_long',
            },
          },
        },
        {
          id: 'r4',
          cells: {
            c2: { value: 'Maple', name: 'species', allow: { list: ['Maple', 'Oak, white'] } },
          },
        },
        { id: 'r5', cells: { c2: { formula: '=apron_long*2', name: 'pair' } } },
        { id: 'r6', cells: { c2: { value: 240, quantity: 'money', name: 'price' } } },
      ],
    },
  ],
  checks: [
    {
      id: 'k1',
      name: 'Length',
      formula: '=bench_length<=96',
      severity: 'stop',
      says: 'A bench of {bench_length} does not fit the van.',
    },
    {
      id: 'k2',
      name: 'Legs',
      formula: '=leg_size>=2',
      severity: 'care',
      says: 'A leg of {leg_size} looks thin.',
    },
  ],
  tables: [],
};

/** The bench as text, with a cell of its column B changed. */
export function benchWith(row: number, cell: object): string {
  const copy = structuredClone(bench);
  const found = copy.sheets[0]?.rows[row - 1];
  if (found === undefined) throw new RangeError(`the bench has no row ${row}`);
  Object.assign(found, { cells: { c2: cell } });
  return JSON.stringify(copy);
}

export const benchText = JSON.stringify(bench);
