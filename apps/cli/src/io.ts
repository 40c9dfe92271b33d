import type { Imported } from '@kerfbook/interchange';
import type { Sweeper } from '@kerfbook/workbook/sweep';
import type { ImportAsked } from './import-thread.ts';

/** What was found where a file should be. */
export type FileText =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly says: string };

/** The same as it lies there, of a file that is no text. */
export type FileBytes =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly says: string };

/** A thread in which a workbook is swept. */
export interface SweepThread {
  readonly sweeper: Sweeper;
  end(): Promise<void>;
}

/** The world outside a command: where results and complaints go, where files come from. */
export interface Io {
  /** A result, on a line of its own. */
  out(line: string): void;
  /** A complaint, on a line of its own. */
  err(line: string): void;
  read(path: string): Promise<FileText>;
  readBytes(path: string): Promise<FileBytes>;
  /**
   * Writes a file whole or not at all; a sentence where it cannot be written. What is there already is
   * written over only by `force`, and what was read never.
   */
  write(path: string, text: string | Uint8Array, force: boolean): Promise<string | undefined>;
  /** What the surroundings have set under a name; nothing where they have not. */
  setting(name: string): string | undefined;
  /** The clock on the wall. */
  now(): Date;
  startSweepThread(): SweepThread;
  /** Reads a file of others where it can do no harm. */
  importFile(asked: ImportAsked): Promise<Imported>;
  /** How many threads work beside one another here. */
  readonly threads: number;
  /** Calls back when whoever waits wants it to end; what comes back takes the wish away again. */
  whenInterrupted(stop: () => void): () => void;
}

/** How a command ends: 0 done, 1 the book has problems, 2 bad usage or an unreadable file. */
export type ExitCode = 0 | 1 | 2;
