import { describe, expect, it } from 'vitest';
import { templatesOf } from './templates.ts';

const head = (title: string) => ({ title, about: '', address: `/${title}` });
const HEADS = {
  '../templates/bench.json': head('A bench'),
  '../templates/table.json': head('Table'),
  '../templates/stool.json': head('Stool'),
};

describe('templates that ship', () => {
  it('begin with the one that opens first, whatever its title; the others go by title', () => {
    const templates = templatesOf(HEADS, 'table', async (address) => address);
    expect(templates.map(({ key }) => key)).toEqual(['table', 'bench', 'stool']);
  });

  it('cannot begin with one that is not there', () => {
    expect(() => templatesOf(HEADS, 'chair', async (address) => address)).toThrow(/chair/);
  });

  it('are read once, and again where reading failed', async () => {
    let asked = 0;
    const [table] = templatesOf(HEADS, 'table', async (address) => {
      asked += 1;
      if (asked === 1) throw new Error('no network');
      return address;
    });
    await expect(table?.text()).rejects.toThrow('no network');
    await expect(table?.text()).resolves.toBe('/Table');
    await expect(table?.text()).resolves.toBe('/Table');
    expect(asked).toBe(2);
  });
});
