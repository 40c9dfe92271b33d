import { numberFormats } from '#libraries';

/**
 * What TEXT writes: number format codes of the open spreadsheet formats through numfmt. `# ??/16`
 * is written reduced, as a maker writes it: `1 1/2`, not `1 8/16`.
 *
 * @returns nothing where it is no such code
 * @throws {NotLoaded} while numfmt is still on its way
 */
export function formatNumber(value: number, code: string): string | undefined {
  const fraction = /\?+\/(\d+)$/.exec(code)?.[1];
  if (fraction !== undefined) return reduced(value, Number(fraction));
  const { format } = numberFormats.need();
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

/** The digits and places in a code; a sign behind a backslash stands for itself. */
const PLACES = /\\.|[#0]+(?:\.[#0]*)?/;

/** A number by the places that a code shows, where that is all that can be read of it. */
export function formatPlaces(value: number, code: string): string {
  const found = PLACES.exec(code);
  if (found === null || found[0].startsWith('\\')) return code;
  const [places] = found;
  const [whole = '', decimals = ''] = places.split('.');
  const [before = '', after = ''] = Number(value.toFixed(decimals.length)).toString().split('.');
  const zeros = (wanted: string): string => '0'.repeat(wanted.split('0').length - 1);
  const front = zeros(whole.slice(0, Math.max(0, whole.length - before.length))) + before;
  const back = after + zeros(decimals.slice(after.length));
  const written = `${front}${decimals === '' ? '' : '.'}${back}`;
  return code.slice(0, found.index) + written + code.slice(found.index + places.length);
}
