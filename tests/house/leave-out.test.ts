import { engineChecked, leaveOut } from '@kerfbook/grid/scripts/leave-out.mjs';
import { describe, expect, it, vi } from 'vitest';

const engine = vi.hoisted(() => ({ checkEngine: vi.fn() }));
vi.mock('@kerfbook/workbook/hyperformula', () => engine);

/** What is left out of the app has to be there to be left out, or a new version slips through. */

const PART = {
  what: 'pictures',
  file: /\/lib\/pictures\.mjs$/,
  words: /^export const PICTURES = /m,
  put: 'export const PICTURES = [];',
  whole: true,
};

/** The plugin as a build runs it: what it makes of each file, or what it stops with. */
function build(
  part: typeof PART | readonly (typeof PART)[],
  files: Readonly<Record<string, string>>,
): readonly string[] {
  const plugin = leaveOut([part].flat()) as unknown as Readonly<
    Record<
      'buildStart' | 'transform' | 'buildEnd',
      (this: object, ...given: unknown[]) => { readonly code: string } | undefined
    >
  >;
  const context = {
    error(says: string): never {
      throw new Error(says);
    },
  };
  plugin.buildStart.call(context);
  const made = Object.entries(files).map(
    ([id, code]) => plugin.transform.call(context, code, id)?.code ?? code,
  );
  plugin.buildEnd.call(context, undefined);
  return made;
}

const PICTURES = "import { a } from './a.mjs';\nexport const PICTURES = [a, 'b'];\n";

describe('what is left out of the app', () => {
  it('is the whole file or the words, and no other file', () => {
    const files = { '/x/lib/pictures.mjs': PICTURES, '/x/lib/a.mjs': 'export const a = 1;' };
    expect(build(PART, files)).toEqual([PART.put, 'export const a = 1;']);
    const words = { ...PART, put: 'export const PICTURES = 0 && ', whole: false };
    expect(build(words, files)[0]).toBe(PICTURES.replace('= [', '= 0 && ['));
    expect(build(PART, { 'C:\\x\\lib\\pictures.mjs': PICTURES })).toEqual([PART.put]);
  });

  it('may be several parts of one file', () => {
    const lines = { '/x/lib/pictures.mjs': 'export const a = 1;\nexport const b = 2;\n' };
    const part = (name: string) => ({
      ...PART,
      what: name,
      words: new RegExp(`^export const ${name} = .*\n`, 'm'),
      put: '',
      whole: false,
    });
    expect(build([part('a'), part('b')], lines)).toEqual(['']);
    expect(() => build([part('a'), part('c')], lines)).toThrow(/"c" cannot be left out/);
  });

  it('stops the build where the library is made otherwise', () => {
    const other = { '/x/lib/pictures.mjs': 'export function pictures() {}' };
    expect(() => build(PART, other)).toThrow(/"pictures" cannot be left out.*leave-out\.mjs/);
    const twice = { '/x/lib/pictures.mjs': PICTURES + PICTURES };
    expect(() => build(PART, twice)).toThrow(/cannot be left out/);
  });

  it('stops the build where the file is not met', () => {
    expect(() => build(PART, { '/x/lib/drawings.mjs': PICTURES })).toThrow(
      /No file was met for "pictures"/,
    );
  });
});

describe('what the app does not look for at its start', () => {
  it('is looked for when it is built, and stops the build where it is not there', async () => {
    const start = engineChecked().buildStart as unknown as () => Promise<void>;
    await start();
    expect(engine.checkEngine).toHaveBeenCalledOnce();
    engine.checkEngine.mockImplementation(() => {
      throw new Error('has no evaluator');
    });
    await expect(start()).rejects.toThrow('has no evaluator');
  });
});
