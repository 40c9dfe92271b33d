import { CuttingFault, pickBoards, planLengths } from '@kerfbook/cutting';
import { format } from 'numfmt';
import { there } from './part.ts';

/** The planner behind the buying functions. `parts-late.ts` is the same for the app. */
export const cutting = there({ CuttingFault, pickBoards, planLengths });

/** What TEXT writes numbers with. */
export const numberFormats = there({ format });
