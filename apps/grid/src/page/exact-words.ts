/** Decimals that are told of a large number, and digits of a small one: finer than anything is cut or paid. */
const DECIMALS = 4;
const DIGITS = 6;

/** What a rounded number stands for: exactly, where that is short; else as finely as matters. */
export function exactWords(exact: string): string {
  const value = Number(exact);
  if (!Number.isFinite(value) || value === 0) return `exactly ${exact}`;
  const decimals = Math.max(DECIMALS, DIGITS - 1 - Math.floor(Math.log10(Math.abs(value))));
  const short = Number(value.toFixed(Math.min(decimals, 100)));
  return short === value ? `exactly ${exact}` : `more exactly ${short}`;
}
