import { placementOf as placementIn } from '@kerfbook/functions/shaped';
import type { Placement } from '@kerfbook/solids';
import type { Part, Placing } from './parts.ts';

/**
 * From the frame of a piece to the room: how it is turned, how it leans, and where its corner 0, 0, 0 comes to, mm.
 * Which of its faces looks where when it is turned is written down in `turned.ts` of `@kerfbook/functions/shaped`.
 */
export const placementOf = (part: Part, placing: Placing, copy: number): Placement =>
  placementIn(part, placing, copy);
