import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type Imported, writeXlsx } from '@kerfbook/interchange';
import { loadText } from '@kerfbook/workbook';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openTemplate } from '../interchange/templates.ts';

/** The command line as it is built: its thread runs what is built, too. */
const CLI = fileURLToPath(new URL('../../apps/cli', import.meta.url));
const { importInThread } = (await import(
  pathToFileURL(join(CLI, 'dist/import-thread.js')).href
)) as {
  importInThread(
    asked: {
      readonly bytes: Uint8Array;
      readonly name: string;
      readonly how: { readonly isBare: boolean; readonly parts: boolean };
    },
    limits?: { readonly seconds: number; readonly megabytes: number },
  ): Promise<Imported>;
};

const bytes = writeXlsx(openTemplate('cost')).bytes;
const asked = { bytes, name: 'cost.xlsx', how: { isBare: false, parts: false } };

describe('the thread in which the command line reads files of others', () => {
  it('gives back a workbook that loads', async () => {
    const read = await importInThread(asked);
    if (!read.ok) throw new Error(read.says);
    expect(loadText(JSON.stringify(read.document)).ok).toBe(true);
    expect(read.counts.formulas).toBeGreaterThan(50);
  });

  it('is ended where it takes too long, or too much', async () => {
    const long = await importInThread(asked, { seconds: 0.001, megabytes: 1000 });
    expect(long).toEqual({
      ok: false,
      says: 'The file takes longer to read than 0.001 s; it is not opened.',
    });
    const large = await importInThread(asked, { seconds: 60, megabytes: 12 });
    expect(large).toEqual({
      ok: false,
      says: 'The file takes more memory to read than 12 MB; it is not opened.',
    });
  });

  it('of the command as it is called: a file, and one that unpacks to far more than it is', () => {
    const folder = mkdtempSync(join(tmpdir(), 'kerfbook-import-'));
    try {
      const run = (name: string, file: Uint8Array) => {
        writeFileSync(join(folder, name), file);
        const args = [join(CLI, 'bin/kerfbook.mjs'), 'import', name, '--out', `${name}.json`];
        return spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
      };
      const good = run('cost.xlsx', bytes);
      expect({ code: good.status, err: good.stderr }).toEqual({ code: 0, err: '' });
      expect(loadText(readFileSync(join(folder, 'cost.xlsx.json'), 'utf8')).ok).toBe(true);
      const filler = strToU8(' '.repeat(60 * 1024 * 1024));
      const bomb = run('bomb.ods', zipSync({ 'content.xml': filler }));
      expect(bomb.status).toBe(2);
      expect(bomb.stderr).toContain('unpacks to more than');
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
