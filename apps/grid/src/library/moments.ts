import { timeOfDay } from '@kerfbook/keeping';

/** `25 Nov 2026, 14:55`; nothing where it is not known. */
export function momentOf(at: number): string {
  return at === 0 ? '' : `${day(at)}, ${timeOfDay(at)}`;
}

/** The same of each; those of one minute tell their seconds too, so that they can be told apart. */
export function momentsOf(all: readonly number[]): readonly string[] {
  const told = all.map(momentOf);
  return told.map((moment, i) => {
    const isAlone = told.indexOf(moment) === told.lastIndexOf(moment);
    const seconds = String(new Date(all[i] ?? 0).getSeconds()).padStart(2, '0');
    return isAlone || moment === '' ? moment : `${moment}:${seconds}`;
  });
}

/** `25 Nov 2026`: the same whatever the device's language, as the app's words are. */
function day(at: number): string {
  return new Date(at).toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
  });
}
