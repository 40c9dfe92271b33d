import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { publicMembers } from '../scripts/docstrings.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

describe('what packages offer', () => {
  const members = publicMembers(root);

  it('was read: everyone knows some of it', () => {
    const names = members.map(({ name }) => name);
    for (const name of ['OpenWorkbook.apply', 'Workbook.open', 'drawViews', 'Bookcase.start'])
      expect(names).toContain(name);
    expect(members.length).toBeGreaterThan(1_400);
  });

  it('has a docstring on every public member', () => {
    const bare = members.filter(({ documented }) => !documented);
    expect(bare.map(({ file, line, name }) => `${file}:${line} ${name}`)).toEqual([]);
  });
});

const FILES = {
  'packages/one/package.json': JSON.stringify({
    exports: {
      '.': { 'kerfbook-source': './src/index.ts' },
      './testing': { 'kerfbook-source': './src/testing.ts' },
    },
  }),
  'packages/one/src/index.ts': `
    export { type Shape, Ball } from './shape.ts';
    export { far } from '@kerfbook/two';
    export { bare, told, type Both };
    /** Told. */
    const told = 1;
    // Not told.
    const bare = 2;
    /** Told. */
    type Both = { one: string } & {
      /** Told. */
      two: string;
    };`,
  'packages/one/src/testing.ts': 'export const forTests = 1;',
  'packages/one/src/shape.ts': `
    import type { Round } from './round.ts';
    export const inside = 1;
    export interface Shape {
      /** Told. */
      size: number;
      colour: string;
    }
    /** Told. */
    export class Ball implements Round {
      readonly #hidden = 1;
      private own = 2;
      constructor() {}
      radius = 3;
      /** Told. */
      grow(by: number): void;
      grow(by: string): void;
      bounce(): void {}
    }`,
  'packages/one/src/round.ts': `
    export interface Round extends Sized { /** Told. */ radius: number; bounce(): void }
    interface Sized { size: number }`,
};

describe('the look at docstrings', () => {
  const folder = mkdtempSync(join(tmpdir(), 'kerfbook-docstrings-'));
  beforeAll(() => {
    for (const [path, text] of Object.entries(FILES)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('finds what an entry exports, and which of it has none', () => {
    const found = publicMembers(folder).map(({ name, documented }) => [name, documented]);
    expect(Object.fromEntries(found)).toEqual({
      told: true,
      bare: false,
      Both: true,
      'Both.one': false,
      'Both.two': true,
      Shape: false,
      'Shape.size': true,
      'Shape.colour': false,
      Ball: true,
      'Ball.radius': true,
      'Ball.grow': true,
      'Ball.bounce': false,
    });
  });
});
