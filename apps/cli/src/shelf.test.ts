import { describe, expect, it } from 'vitest';
import { benchText, call } from './testing/fake-io.ts';

const ID = 'made-up-template';
/** Nothing answers on port 9 of this machine. */
const CLUB = 'http://127.0.0.1:9';
const TOKEN = 'a'.repeat(43);
const SETTINGS = { KERFBOOK_CLUB: CLUB, KERFBOOK_TOKEN: TOKEN };

const shelf = (words: readonly string[], settings: Readonly<Record<string, string>> = SETTINGS) =>
  call(['shelf', ...words], { 'bench.json': benchText }, undefined, settings);

describe('kerfbook shelf', () => {
  it('tells what it can do when it is asked, or called without saying what', async () => {
    const asked = await shelf(['--help']);
    expect(asked).toMatchObject({ code: 0, err: '' });
    for (const word of ['list', 'get', 'publish', 'suggest'])
      expect(asked.out).toContain(`kerfbook shelf ${word}`);
    expect(asked.out).toContain('KERFBOOK_TOKEN');
    expect((await shelf(['get', '--help'])).out).not.toContain('shelf publish');
    for (const words of [[], ['put']]) {
      expect(await shelf(words)).toEqual({
        code: 2,
        out: '',
        err: 'What is to be done with the shelf is not said. There are kerfbook shelf list, kerfbook shelf get, kerfbook shelf publish, kerfbook shelf suggest.',
      });
    }
  });

  it.each<[string, string[], Record<string, string>, string]>([
    ['no club', ['list'], { KERFBOOK_TOKEN: TOKEN }, 'Which club is not said.'],
    ['an address without its beginning', ['list', '--club', 'club.example'], SETTINGS, 'not the'],
    ['an address of another kind', ['list', '--club', 'ftp://club.example'], SETTINGS, 'not the'],
    ['a password in an address', ['list', '--club', 'http://a:b@[::1]'], SETTINGS, 'not the'],
    ['no token', ['list'], { KERFBOOK_CLUB: CLUB }, 'There is no token in KERFBOOK_TOKEN.'],
    ['a token of another kind', ['list'], { ...SETTINGS, KERFBOOK_TOKEN: 'no' }, 'no token of a'],
    ['a token as an argument', ['list', '--token', TOKEN], SETTINGS, 'no option --token'],
    ['no template', ['get', '--out', 'a'], SETTINGS, 'It got 0.'],
    ['no file to write to', ['get', ID], SETTINGS, '--out says'],
    ['what is no template', ['get', 'x', '--out', 'a'], SETTINGS, '"x" is neither the id'],
    [
      'an address of another club: the token is not sent there',
      ['get', `https://other.example/club/templates/${ID}`, '--out', 'a'],
      SETTINGS,
      'The address is of https://other.example, and the club is http://127.0.0.1:9.',
    ],
    ['a revision below 1', ['get', ID, '--out', 'a', '--revision', '0'], SETTINGS, '"0"'],
    ['no workbook', ['publish'], SETTINGS, 'It got 0.'],
    ['no license', ['publish', 'bench.json'], SETTINGS, 'states no license of the shelf'],
    ['a license it does not know', ['publish', 'b', '--license', 'mine'], SETTINGS, '"mine"'],
    [
      'a license for a revision',
      ['publish', 'b', '--as', ID, '--license', 'club'],
      SETTINGS,
      'away',
    ],
    ['a new template that follows one', ['publish', 'b', '--from', '1'], SETTINGS, 'with --as'],
    ['a note too long', ['publish', 'b', '--note', 'x'.repeat(2_001)], SETTINGS, 'It got 2001.'],
    ['a file that is not there', ['publish', 'none.json', '--license', 'club'], SETTINGS, 'none'],
    ['no template to suggest to', ['suggest', 'bench.json'], SETTINGS, '--to says'],
  ])('complains of %s', async (_, words, settings, says) => {
    const done = await shelf(words, settings);
    expect(done).toMatchObject({ code: 2, out: '' });
    expect(done.err).toContain(says);
    expect(done.err).not.toContain(TOKEN);
    expect(done.written).toBeUndefined();
  });

  it.each([
    ['list', ['list', 'oak']],
    ['get', ['get', ID, '--out', 'a.json']],
    ['get by its address', ['get', `${CLUB}/club/templates/${ID}`, '--out', 'a.json']],
    ['publish', ['publish', 'bench.json', '--license', 'cc0-1.0']],
    ['suggest', ['suggest', 'bench.json', '--to', ID]],
  ])('says that no club answers: %s', async (_, words) => {
    expect(await shelf(words)).toEqual({
      code: 2,
      out: '',
      err: `No club answers at ${CLUB}. Check the address and the network.`,
    });
  });

  it('warns where the token can be read on its way', async () => {
    const done = await shelf(['list', '--club', 'http://club.invalid']);
    expect(done.err).toContain('can be read on the way');
  });
});
