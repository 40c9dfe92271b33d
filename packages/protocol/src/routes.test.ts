import { describe, expect, it } from 'vitest';
import { line, words } from './common.ts';
import { MailAddress } from './people.ts';
import type { Route } from './route.ts';
import { ROUTES, type RouteName } from './routes.ts';

const NAMES = Object.keys(ROUTES) as RouteName[];
const paramsIn = (path: string): string[] =>
  [...path.matchAll(/:(\w+)/g)].map(([, name = '']) => name);

describe('the routes of a club', () => {
  it('are each of a method and a path of their own, under one folder', () => {
    const all = NAMES.map((name) => `${ROUTES[name].method} ${ROUTES[name].path}`);
    expect(new Set(all).size).toBe(NAMES.length);
    expect(NAMES.filter((name) => !ROUTES[name].path.startsWith('/club/'))).toEqual([]);
  });

  it.each(NAMES)('%s names each part of its path, and no other', (name) => {
    const { path, params }: Route = ROUTES[name];
    const parts = Object.fromEntries(paramsIn(path).map((part) => [part, '123456789']));
    expect(params.safeParse(parts).success).toBe(true);
    expect(params.safeParse({ ...parts, more: '123456789' }).success).toBe(false);
    for (const part of paramsIn(path)) {
      const { [part]: _left, ...rest } = parts;
      expect(params.safeParse(rest).success).toBe(false);
    }
  });

  it('change nothing where they only read', () => {
    const reads = NAMES.filter((name) => ROUTES[name].method === 'GET');
    expect(reads.filter((name) => (ROUTES[name] as Route).body.safeParse({}).success)).toEqual([]);
  });
});

describe('words that people type', () => {
  it.each([
    ['Round table', true],
    ['café 84 × 42', true],
    ['', false],
    ['   ', false],
    ['two\nlines', false],
    ['a\0b', false],
    ['half \ud83e', false],
    ['a\u2028b', false],
    ['x'.repeat(61), false],
  ])('on one line: %j is taken: %s', (text, is) => {
    expect(line(60).safeParse(text).success).toBe(is);
  });

  it.each([
    ['two\nlines\tand a tab', true],
    ['', true],
    ['a\0b', false],
    ['\u001b[31m', false],
    ['half \udd11', false],
  ])('over several lines: %j is taken: %s', (text, is) => {
    expect(words(60).safeParse(text).success).toBe(is);
  });
});

describe('an e-mail address', () => {
  it.each([
    ['ben@example.org', true],
    ["o'ben+shop@mail.example.org", true],
    ['ben@workshop', true],
    ['ben', false],
    ['ben@', false],
    ['ben@example..org', false],
    ['ben@-example.org', false],
    ['ben @example.org', false],
    ['Ben <ben@example.org>', false],
    ['ben@example.org,cora@example.org', false],
    ['ben@example.org;cora@example.org', false],
    ['"ben"@example.org', false],
    ['ben@example.org\n', false],
    ['ben@example.org\r\nBcc: cora@example.org', false],
    ['ben\0@example.org', false],
    ['b\u00e9n@example.org', false],
    [`${'b'.repeat(250)}@example.org`, false],
  ])('%j is taken: %s', (text, is) => {
    expect(MailAddress.safeParse(text).success).toBe(is);
  });
});
