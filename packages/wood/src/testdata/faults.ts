import { Fault, type FaultClass } from '../fault.ts';

/** The fault a call throws; fails when it answers or throws anything else. */
export function faultOf(call: () => unknown): Fault {
  let answer: unknown;
  try {
    answer = call();
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
  throw new Error(`expected a fault, got the answer ${String(answer)}`);
}

/** Fails unless the call throws a fault of this class that blames this argument. */
export function expectFault(call: () => unknown, kind: FaultClass, argument: string): void {
  const { detail, message } = faultOf(call);
  if (detail.class === kind && detail.argument === argument) return;
  throw new Error(`expected a ${kind} fault of ${argument}, got ${detail.class}: ${message}`);
}
