export { checkStanding } from '../book/checks.ts';
export { checkPlace } from './checks.ts';
export type { Line, SweepAsk, WorkerLine } from './messages.ts';
export { AT_ONCE, serveSweeps } from './serve.ts';
export { type Sweep, Sweeper, SweepFailed } from './sweeper.ts';
