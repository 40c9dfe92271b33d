export { checkStanding } from '../book/checks.ts';
export { checkPlace } from './checks.ts';
export { CompiledDocument, type LeftFormula } from './document.ts';
export { serveInWorker } from './in-worker.ts';
export type { Line, SweepAsk, WorkerLine } from './messages.ts';
export { AT_ONCE, serveSweeps } from './serve.ts';
export type { Slice } from './slice.ts';
export { type Sweep, Sweeper, SweepFailed } from './sweeper.ts';
