/// <reference types="node" />
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { contrast } from '@kerfbook/drawing/testing';
import { describe, expect, it } from 'vitest';

/**
 * Contrast after WCAG 2.2, success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (marks and edges of
 * controls, 3 : 1); relative luminance as WCAG 2.2 defines it.
 */

type Scheme = 'light' | 'dark';

/** `--ink: light-dark(#23211d, #ebe7dc);` → both colours. */
function readTokens(css: string): ReadonlyMap<string, Record<Scheme, string>> {
  const found = css.matchAll(/--([\w-]+):\s*light-dark\((#[0-9a-f]{6}),\s*(#[0-9a-f]{6})\)/g);
  return new Map([...found].map(([, name = '', light = '', dark = '']) => [name, { light, dark }]));
}

const colours = readTokens(readFileSync(join(import.meta.dirname, 'tokens.css'), 'utf8'));

function colour(name: string, scheme: Scheme): string {
  const found = colours.get(name)?.[scheme];
  if (found === undefined) throw new Error(`there is no colour --${name} in tokens.css`);
  return found;
}

const GROUNDS = ['paper', 'paper-sunk', 'paper-raised', 'input', 'selected'];
const INKS = ['ink', 'quiet', 'accent', 'danger', 'care', 'focus'];

/** Text that is set on a ground of its own. */
const OTHER_TEXT = [
  ['on-accent', 'accent'],
  ['paper', 'ink'],
  ...['sand', 'clay', 'slate', 'ash', 'plum'].flatMap((ground) =>
    ['ink', 'quiet', 'danger'].map((ink) => [ink, `background-${ground}`] as const),
  ),
] as const;

/** Lines that tell where a control is, and the focus ring. */
const SIGNS = [
  ['graphite', 'paper'],
  ['graphite', 'input'],
  ['edge', 'paper'],
  ['edge', 'paper-raised'],
  ['edge', 'paper-sunk'],
  ['input-edge', 'input'],
  ['input-edge', 'paper'],
  ['focus', 'paper'],
] as const;

describe.each<Scheme>(['light', 'dark'])('colours, %s', (scheme) => {
  const text = [
    ...GROUNDS.flatMap((ground) => INKS.map((ink) => [ink, ground] as const)),
    ...OTHER_TEXT,
  ];
  it.each(text)('%s can be read on %s', (ink, ground) => {
    expect(contrast(colour(ink, scheme), colour(ground, scheme))).toBeGreaterThanOrEqual(4.5);
  });

  it.each(SIGNS)('%s can be seen on %s', (sign, ground) => {
    expect(contrast(colour(sign, scheme), colour(ground, scheme))).toBeGreaterThanOrEqual(3);
  });
});

it('hints in empty fields are written in an ink that is measured', () => {
  const css = readFileSync(join(import.meta.dirname, 'base.css'), 'utf8');
  const [, ink = ''] = /::placeholder \{\s*color: var\(--([\w-]+)\);\s*opacity: 1;/.exec(css) ?? [];
  expect(INKS).toContain(ink);
});

describe('the measure itself', () => {
  it('gives 21 for black on white and 1 for a colour on itself', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(contrast('#a43a2a', '#a43a2a')).toBe(1);
  });
});
