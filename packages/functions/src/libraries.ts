import { format } from 'numfmt';
import { loaded } from './lazy.ts';

/** What TEXT writes numbers with. `libraries-lazy.ts` is the same for the app. */
export const numberFormats = loaded({ format });
