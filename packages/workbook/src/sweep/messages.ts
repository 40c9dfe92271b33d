import type { At, BookDocument, Scalar } from '@kerfbook/document';
import type { CellValue } from '../api.ts';

/** What results are asked for: cells by where they stand, and the inputs' values set by set. */
export interface SweepAsk {
  /** Cells that hold no formula. */
  readonly inputs: readonly At[];
  /** Cells of sheets, and checks by {@link checkPlace}. */
  readonly results: readonly At[];
  /** Values of all inputs, in their order; `null` is an empty cell. */
  readonly sets: readonly (readonly (Scalar | null)[])[];
}

/** What is said to the thread that sweeps; all of it is plain data. */
export type ToSweeper =
  | { readonly say: 'open'; readonly document: BookDocument }
  | { readonly say: 'sweep'; readonly sweep: number; readonly ask: SweepAsk }
  | { readonly say: 'stop'; readonly sweep: number };

/** What it answers. */
export type FromSweeper =
  | {
      readonly say: 'values';
      readonly sweep: number;
      /** Results of the sets that follow those told before, in their order. */
      readonly rows: readonly (readonly CellValue[])[];
    }
  | { readonly say: 'end'; readonly sweep: number; readonly stopped: boolean }
  /** `says` is a sentence for a person. */
  | { readonly say: 'failed'; readonly sweep: number; readonly says: string };

/** One end of a line between two threads. */
export interface Line {
  /** Sends a message to whoever listens at the other end. */
  send(message: unknown): void;
  /** Whoever listens hears every message, in the order in which they were sent. */
  hear(listener: (message: unknown) => void): void;
}

/** The end of the thread that sweeps. */
export interface WorkerLine extends Line {
  /** Resolves after messages that have arrived were heard. */
  turn(): Promise<void>;
}
