import { format } from 'numfmt';
import { loaded } from './lazy.ts';
import { SHAPED } from './shaped-parts.ts';

/** What TEXT writes numbers with; a bundle without TEXT leaves it out. `libraries-lazy.ts` is the same for the app. */
export const numberFormats = /* @__PURE__ */ loaded({ format });

/** What shaped parts of a table measure and whether they meet. */
export const shapedParts = loaded(SHAPED);
