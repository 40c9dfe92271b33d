import { readFileSync } from 'node:fs';
import type { Scalar } from '@kerfbook/document';
import type { Trial, Values } from './trial.ts';

/** A table of the list of those that can be built; all of it is invented. */
export interface KeptTable {
  readonly name: string;
  readonly units: 'us' | 'metric';
  /** What differs from the template as it ships, by the inputs' names; in the table's units. */
  readonly inputs: Readonly<Record<string, Scalar>>;
}

/** Tables that can be built, of an invented workshop's order book. */
export const KEPT: readonly KeptTable[] = JSON.parse(
  readFileSync(new URL('./buildable.json', import.meta.url), 'utf8'),
).tables;

/** The kept tables in the units of the us, as values of a trial's inputs. */
export const basesOf = (trial: Trial): readonly Values[] =>
  KEPT.filter(({ units }) => units === 'us').map(({ inputs }) => trial.with(inputs));
