import { expect } from 'vitest';
import { Fault, type FaultClass } from '../fault.ts';

/** The fault a call throws; fails when it answers or throws anything else. */
export function faultOf(call: () => unknown): Fault {
  try {
    call();
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
  throw new Error('expected a fault, got an answer');
}

export function expectFault(call: () => unknown, kind: FaultClass, argument: string): void {
  const { detail } = faultOf(call);
  expect({ class: detail.class, argument: detail.argument }).toEqual({ class: kind, argument });
}
