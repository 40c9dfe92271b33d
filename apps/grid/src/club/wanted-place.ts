import type { Place } from './shelf-page.tsx';

let wanted: Place | undefined;

/** Where the shelf is to open next: a dialog over the workbook may lead there. */
export const wantedPlace = {
  set(place: Place): void {
    wanted = place;
  },
  /** Once: who turns to the shelf afterwards finds all templates. */
  take(): Place | undefined {
    const place = wanted;
    wanted = undefined;
    return place;
  },
};
