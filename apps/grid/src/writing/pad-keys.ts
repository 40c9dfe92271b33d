/** What is written and where the caret stands in it. */
export interface Written {
  readonly text: string;
  readonly caret: number;
}

/** Every eighth of an inch, and every sixteenth that is no eighth. */
export const EIGHTHS = ['1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'] as const;
export const SIXTEENTHS = [
  '1/16',
  '3/16',
  '5/16',
  '7/16',
  '9/16',
  '11/16',
  '13/16',
  '15/16',
] as const;

const put = (before: string, after: string): Written => ({
  text: before + after,
  caret: before.length,
});

/** A sign at the caret. */
export function withSign({ text, caret }: Written, sign: string): Written {
  return put(text.slice(0, caret) + sign, text.slice(caret));
}

/**
 * A fraction at the caret: after a whole number it stands beside it, in the place of another fraction or of
 * decimals, and before a unit that is there already.
 */
export function withFraction({ text, caret }: Written, fraction: string): Written {
  const before = text.slice(0, caret);
  const [unit = ''] = /\s*(?:"|in)$/.exec(before) ?? [];
  const number = before.slice(0, before.length - unit.length);
  const kept = number.replace(/(?:(?<!\d)|[\s-]+|(?<=\d)(?=\.))(?:\d+\/\d*|\.\d*)$/, '');
  const apart = /\d$/.test(kept) ? ' ' : '';
  return put(`${kept}${apart}${fraction}${unit}`, text.slice(caret));
}

/** Takes out what stands before the caret: a letter, or `whole`, a fraction that came at one press. */
export function withoutLast({ text, caret }: Written, whole: boolean): Written {
  const before = text.slice(0, caret);
  const kept = whole
    ? before.replace(/\s*\d+\/\d+(\s*(?:"|in))?$/, '$1')
    : [...before].slice(0, -1).join('');
  return put(kept, text.slice(caret));
}
