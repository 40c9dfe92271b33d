import { describe, expect, it } from 'vitest';
import { ask, ClubRefused, pathOf } from './client.ts';

/** A club that gives one answer to everything, and what it was asked. */
function club(status: number, told: unknown) {
  const asked: { url: string; init: RequestInit }[] = [];
  const answer = async (url: RequestInfo | URL, init: RequestInit = {}): Promise<Response> => {
    asked.push({ url: String(url), init });
    return new Response(typeof told === 'string' ? told : JSON.stringify(told), { status });
  };
  return { asked, address: { base: 'http://club.test', fetch: answer as typeof fetch } };
}

const refusalOf = (work: Promise<unknown>): Promise<ClubRefused> =>
  work.then(
    () => Promise.reject(new Error('it was answered')),
    (error: unknown) => {
      if (error instanceof ClubRefused) return error;
      throw error;
    },
  );

describe('asking a club', () => {
  it('writes parts of the path, what stands behind the question mark, a body and a token', async () => {
    const { asked, address } = club(200, { templates: [] });
    await ask({ ...address, token: 'A'.repeat(43) }, 'browse', {
      query: { find: 'oak & ash', order: 'thanks' },
    });
    expect(asked[0]?.url).toBe('http://club.test/club/templates?find=oak+%26+ash&order=thanks');
    expect(asked[0]?.init.headers).toEqual({ Authorization: `Bearer ${'A'.repeat(43)}` });
    expect(pathOf('template', { template: 'a/../b' })).toBe('/club/templates/a%2F..%2Fb');
    const done = club(200, { done: true });
    await ask(done.address, 'setRole', {
      params: { member: 'ada-stone' },
      body: { role: 'keeper' },
    });
    expect(done.asked[0]).toMatchObject({
      url: 'http://club.test/club/members/ada-stone/role',
      init: { method: 'PUT', body: '{"role":"keeper"}' },
    });
  });

  it('tells why it was refused, in the words of the club', async () => {
    const told = { refused: 'changed', says: 'Revision 3 stands.', head: 3 };
    const refused = await refusalOf(ask(club(409, told).address, 'facets', {}));
    expect(refused).toMatchObject({ code: 'changed', message: 'Revision 3 stands.', head: 3 });
  });

  it.each([
    ['a page of another program', 200, '<html>', 'garbled'],
    ['an answer of another shape', 200, { templates: 'none' }, 'garbled'],
    ['an error without words', 503, '', 'notNow'],
    ['an error of nobody', 418, '', 'garbled'],
  ])('makes of %s a sentence', async (_what, status, told, code) => {
    const refused = await refusalOf(ask(club(status, told).address, 'browse', {}));
    expect(refused.code).toBe(code);
    expect(refused.message).toMatch(/^[A-Z].+\.$/);
  });

  it('says that the club is away where nobody answers, and leaves what was called off alone', async () => {
    const failing = (async () => {
      throw new TypeError('no network');
    }) as unknown as typeof fetch;
    const address = { base: '', fetch: failing };
    expect((await refusalOf(ask(address, 'facets', {}))).code).toBe('away');
    const off = AbortSignal.abort();
    await expect(ask(address, 'facets', {}, off)).rejects.toThrow('no network');
  });
});
