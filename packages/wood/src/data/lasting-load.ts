import type { How } from './provenance.ts';

/** How many times its first sag a part comes to under a load that stays. */
type CreepRow = readonly [material: string, times: number, how: How, source: string];

const NDS = 'NDS 3.5.2, as the American Wood Council tells it';
const EUROCODE = 'Eurocode 5, table 3.2, service class 1: 1 + k_def';

export const CREEP_ROWS: readonly CreepRow[] = [
  ['dry wood', 1.5, 'read', NDS],
  ['green wood', 2, 'read', NDS],
  ['plywood', 2, 'memory', 'NDS 3.5.2'],
  ['OSB', 2.5, 'memory', EUROCODE],
  ['particleboard', 3.25, 'memory', EUROCODE],
  ['MDF', 3.25, 'memory', EUROCODE],
];
