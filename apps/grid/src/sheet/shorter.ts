/**
 * A shown number with one decimal less, two less and so on, with a sign where it is rounded by that. One that would
 * round to 0 is left out: it would say that there is nothing.
 * @param exact the number as it is, where the shown one is rounded already
 */
export function fewerDecimals(text: string, exact: string): string[] {
  const found = /^(-?[^\d.-]*)([\d,]+)\.(\d+)$/.exec(text);
  const value = Math.abs(Number(exact.replace(/[^\d.]/g, '')));
  if (found === null || /e/i.test(exact) || !Number.isFinite(value)) return [];
  const [, before = '', whole = '', decimals = ''] = found;
  return Array.from({ length: decimals.length }, (_, i) => {
    const places = decimals.length - 1 - i;
    const scale = 10 ** places;
    // A half goes away from zero, as written.
    const near = Math.round(Number((value * scale).toPrecision(15))) / scale;
    if (near === 0 && value !== 0) return undefined;
    const digits = near.toLocaleString('en-US', {
      minimumFractionDigits: places,
      maximumFractionDigits: places,
      useGrouping: whole.includes(','),
    });
    return `${near === value ? '' : '≈ '}${before}${digits}`;
  }).filter((one) => one !== undefined);
}
