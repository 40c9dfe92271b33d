import { Watched } from '@kerfbook/keeping';
import type { Place } from './shelf-page.tsx';

const wanted = new Watched<Place | undefined>(undefined);

/** Where the shelf is to open next, or to turn to where it is open: a dialog may lead there. */
export const wantedPlace = {
  set(place: Place): void {
    wanted.set(place);
  },
  /** Once: who turns to the shelf afterwards finds all templates. */
  take(): Place | undefined {
    const place = wanted.value;
    if (place !== undefined) wanted.set(undefined);
    return place;
  },
  watch: wanted.watch,
};
