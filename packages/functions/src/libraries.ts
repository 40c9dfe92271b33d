import { format } from 'numfmt';
import { loaded } from './lazy.ts';
import { SHAPED } from './shaped-parts.ts';

/** What TEXT writes numbers with. `libraries-lazy.ts` is the same for the app. */
export const numberFormats = loaded({ format });

/** What shaped parts of a table measure and whether they meet. */
export const shapedParts = loaded(SHAPED);
