const DAY = 86_400_000;

/** 1899-12-30: the null date that OpenFormula documents usually count days from (part 4, 4.3.3). */
const NULL_DATE = Date.UTC(1899, 11, 30);
const FIRST_YEAR = -62_167_219_200_000;
const AFTER_LAST_YEAR = 253_402_300_800_000;

/** Days since 1899-12-30 of a date written year first (ISO 8601); `undefined` when it is none. */
export function readDate(plain: string): number | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(plain)) return undefined;
  const time = Date.parse(`${plain}T00:00:00Z`);
  // A date that the calendar does not have, such as 2026-02-30, may be moved to one that it has.
  if (Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== plain) return undefined;
  return Math.round((time - NULL_DATE) / DAY);
}

/** The day of a number of days since 1899-12-30; `undefined` outside the years 0000 to 9999. */
export function writeDate(days: number): string | undefined {
  const time = NULL_DATE + Math.floor(days) * DAY;
  if (!(time >= FIRST_YEAR && time < AFTER_LAST_YEAR)) return undefined;
  return new Date(time).toISOString().slice(0, 10);
}
