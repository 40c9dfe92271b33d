import { CuttingFault, pickBoards, planLengths, planSheets } from '@kerfbook/cutting';
import { format } from 'numfmt';
import { loaded } from './lazy.ts';

/** The planner behind the buying functions. `libraries-lazy.ts` is the same for the app. */
export const cutting = loaded({ CuttingFault, pickBoards, planLengths, planSheets });

/** What TEXT writes numbers with. */
export const numberFormats = loaded({ format });
