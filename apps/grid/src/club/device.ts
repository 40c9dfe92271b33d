import { type BookStore, Watched } from '@kerfbook/keeping';
import { cutLine } from '@kerfbook/keeping/shelf';

const KEY = 'club-device';
/** As the club takes it. */
const LONGEST = 60;

/** How often this device was given another name. */
export const named = new Watched(0);

/** What others call this device: as its maker said, else as it looks. */
export async function deviceName(store: BookStore): Promise<string> {
  const kept = await store.get(KEY).catch(() => undefined);
  return typeof kept === 'string' && kept !== '' ? kept : looksLike();
}

/** Keeps another name of this device, by which others see who changed a workbook where; none: as it looks. */
export async function nameDevice(store: BookStore, typed: string): Promise<void> {
  await store.set(KEY, cutLine(typed, LONGEST));
  named.set(named.value + 1);
}

/** Narrower than this, in px, what is held in the hand is a phone. */
const PHONE = 600;

function looksLike(): string {
  if (!matchMedia('(pointer: coarse)').matches) return 'Desk';
  return Math.min(screen.width, screen.height) < PHONE ? 'Phone' : 'Tablet';
}
