import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadText } from '@kerfbook/document';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { newId } from './database/ids.ts';
import { runClub } from './main.ts';
import { join as joinClub } from './people/members.ts';
import { readSettings } from './running/settings.ts';
import { freeName } from './running/shelf-files.ts';
import { openClub } from './running/start.ts';
import { publish } from './shelf/publishing.ts';
import { edition, PASSWORD } from './testing/club.ts';

let home: string;
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'kerfbook-club-'));
});
afterEach(() => rmSync(home, { recursive: true }));

const at = (name: string): string => join(home, name);

/** Runs a command as from a keyboard in the folder of the test. */
async function run(args: readonly string[], folder = 'club') {
  const said: string[] = [];
  const complained: string[] = [];
  const code = await runClub(
    args,
    { KERFBOOK_CLUB_FOLDER: at(folder), INIT_CWD: home, PORT: '4180' },
    home,
    { say: (line) => said.push(line), complain: (line) => complained.push(line) },
  );
  return { code, said, complained };
}

/** Does something in a club of the test, as its server would. */
async function inClub<T>(
  work: (club: Awaited<ReturnType<typeof openClub>>['club']) => Promise<T>,
  folder = 'club',
): Promise<T> {
  const { database, club } = await openClub(readSettings({ KERFBOOK_CLUB_FOLDER: at(folder) }));
  try {
    return await work(club);
  } finally {
    await database.close();
  }
}

const codeIn = (lines: readonly string[]): string =>
  /#join=(\S+)/.exec(lines.join('\n'))?.[1] ?? '';

/** Founds the club, with Ada as its keeper. */
async function found(): Promise<string> {
  await inClub(async () => undefined);
  const code = codeIn((await run(['keeper-link'])).said);
  return inClub(
    async (club) =>
      (await joinClub(club, { code, name: 'Ada', password: PASSWORD }, 'a test')).me.id,
  );
}

describe('the command line of a club', () => {
  it('says what there is where a command is none, or names too little or too much', async () => {
    const none = await run(['sing']);
    expect(none.code).toBe(2);
    expect(none.complained).toEqual([
      'There is no command "sing". There is: start, https, backup FILE, restore FILE, keeper-link, export FOLDER.',
    ]);
    for (const args of [
      ['toString'],
      ['backup'],
      ['backup', 'one', 'two'],
      ['https', 'now'],
      ['start', 'now'],
    ]) {
      const { code, complained } = await run(args);
      expect([code, complained.length]).toEqual([2, 1]);
    }
  });

  it('founds no club where none is', async () => {
    for (const args of [['backup', 'b'], ['keeper-link'], ['export', 'shelf']]) {
      const { code, complained } = await run(args);
      expect(code).toBe(1);
      expect(complained.join()).toMatch(/There is no club in/);
    }
    expect(readdirSync(home)).toEqual([]);
  });

  it('makes a keeper, once, also where there are keepers already', async () => {
    await found();
    const { code, said } = await run(['keeper-link']);
    expect(code).toBe(0);
    expect(said[0]).toContain('Keepers of the shelf are Ada.');
    const link = codeIn(said);
    const newest = codeIn((await run(['keeper-link'])).said);
    await inClub(async (club) => {
      // The newest alone holds.
      await expect(
        joinClub(club, { code: link, name: 'Ben', password: PASSWORD }, 'a test'),
      ).rejects.toThrow(/used already/);
      const { me } = await joinClub(
        club,
        { code: newest, name: 'Ben', password: PASSWORD },
        'a test',
      );
      expect(me.role).toBe('keeper');
      await expect(
        joinClub(club, { code: newest, name: 'Kim', password: PASSWORD }, 'a test'),
      ).rejects.toThrow(/used already/);
    });
  });

  it('writes all into a file and restores it into a new folder', async () => {
    const ada = await found();
    await inClub((club) =>
      publish(
        club,
        { id: ada, name: 'Ada', role: 'keeper' },
        {
          id: newId(),
          ...edition(),
          licence: 'cc0-1.0',
        },
      ),
    );
    const done = await run(['backup', 'all.backup']);
    expect([done.code, done.complained]).toEqual([0, []]);
    if (process.platform !== 'win32') expect(statSync(at('all.backup')).mode & 0o777).toBe(0o600);
    const before = readFileSync(at('all.backup'));
    const twice = await run(['backup', 'all.backup']);
    expect(twice.code).toBe(1);
    expect(twice.complained).toEqual([
      `${at('all.backup')} is there already, and nothing is overwritten. Choose another name.`,
    ]);
    expect(readFileSync(at('all.backup'))).toEqual(before);

    const restored = await run(['restore', 'all.backup'], 'other');
    expect([restored.code, restored.complained]).toEqual([0, []]);
    expect(restored.said[0]).toContain('1 person, 1 template, 0 workbooks.');
    const again = await run(['restore', 'all.backup'], 'other');
    expect(again.code).toBe(1);
    expect(again.complained.join()).toMatch(/not empty/);
    expect((await run(['keeper-link'], 'other')).said[0]).toContain('are Ada.');
  });

  it('restores nothing from a file that is not there or no backup', async () => {
    const none = await run(['restore', 'none']);
    expect([none.code, none.complained.length]).toEqual([1, 1]);
    expect(existsSync(at('club'))).toBe(false);
    writeFileSync(at('letter'), 'Dear club,\n');
    const letter = await run(['restore', 'letter']);
    expect([letter.code, letter.complained.length]).toEqual([1, 1]);
    expect((await run(['backup', 'nowhere/b'])).code).toBe(1);
    expect((await run(['restore', '.'])).complained.join()).toMatch(/is a folder/);
  });

  it('writes the shelf as files that any Kerfbook opens', async () => {
    const ada = await found();
    await inClub(async (club) => {
      for (const title of ['Bench: 48/14', 'bench 48 14', 'CON', '../../etc']) {
        await publish(
          club,
          { id: ada, name: 'Ada', role: 'keeper' },
          {
            id: newId(),
            ...edition({ title }),
            licence: 'cc-by-4.0',
          },
        );
      }
    });
    const { code, said } = await run(['export', 'shelf']);
    expect([code, said[0]?.startsWith('4 templates')]).toEqual([0, true]);
    const { templates } = JSON.parse(readFileSync(at('shelf/index.json'), 'utf8'));
    expect(readdirSync(at('shelf')).sort()).toEqual(
      ['index.json', ...templates.map(({ file }: { file: string }) => file)].sort(),
    );
    expect(new Set(templates.map(({ file }: { file: string }) => file))).toEqual(
      new Set(['bench-48-14.json', 'bench-48-14-2.json', 'template-con.json', 'etc.json']),
    );
    for (const { file, title, maker, licence, revision, sha256 } of templates) {
      const text = readFileSync(at(`shelf/${file}`), 'utf8');
      const loaded = loadText(text);
      expect(loaded.ok && loaded.document.title).toBe(title);
      expect(createHash('sha256').update(text).digest('hex')).toBe(sha256);
      expect([maker, licence, revision]).toEqual(['Ada', 'cc-by-4.0', 1]);
    }
    const again = await run(['export', 'shelf']);
    expect(again.code).toBe(1);
    expect(again.complained.join()).toMatch(/has something in it already/);
  });

  it('gives every title a name of its own that every system takes', () => {
    const taken = new Set<string>(['index']);
    const names = ['Index', '', '  ', 'Bänk', 'BÄNK', 'a'.repeat(90), 'Nul', '鉋台'].map((one) =>
      freeName(one, taken),
    );
    expect(names).toEqual([
      'index-2',
      'template',
      'template-2',
      'bänk',
      'bänk-2',
      'a'.repeat(50),
      'template-nul',
      '鉋台',
    ]);
  });

  it('makes a certificate before there is a club, and tells how it is trusted', async () => {
    mkdirSync(at('club'));
    const { code, said } = await run(['https']);
    expect(code).toBe(0);
    expect(said.join('\n')).toMatch(/\/club\/authority\.crt/);
    expect(readdirSync(at('club/https')).sort()).toEqual([
      'authority-key.pem',
      'authority.pem',
      'certificate.pem',
      'key.pem',
    ]);
    expect((await run(['https'])).said[0]).toMatch(/same authority/);
  });
});
