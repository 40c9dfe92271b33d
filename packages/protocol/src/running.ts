import { z } from 'zod';
import { route } from './route.ts';

/** For whoever keeps the club running. */
export const RUNNING = {
  /** Whether the club can answer: its database does. */
  health: route('GET', '/club/health', 'anyone', {
    answer: z.strictObject({ well: z.boolean(), database: z.string(), schema: z.int() }),
  }),
} as const;
