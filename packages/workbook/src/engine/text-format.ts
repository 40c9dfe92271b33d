import { format } from 'numfmt';

/**
 * What TEXT() writes: number format codes of the open spreadsheet formats through numfmt. `# ??/16`
 * is written reduced, as a maker writes it: `1 1/2`, not `1 8/16`.
 */
export function formatNumber(value: number, code: string): string | undefined {
  const fraction = /\?+\/(\d+)$/.exec(code)?.[1];
  if (fraction !== undefined) return reduced(value, Number(fraction));
  try {
    return format(code, value);
  } catch {
    return undefined;
  }
}

function reduced(value: number, denominator: number): string {
  const parts = Math.round(Math.abs(value) * denominator);
  const whole = Math.floor(parts / denominator);
  let over = parts % denominator;
  let under = denominator;
  while (over !== 0 && over % 2 === 0 && under % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const sign = value < 0 && parts > 0 ? '-' : '';
  if (over === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${over}/${under}` : `${sign}${whole} ${over}/${under}`;
}
