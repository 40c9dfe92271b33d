import { describe, expect, it } from 'vitest';
import { SHAPE_FORMS } from './forms.ts';
import { readForm } from './read-form.ts';
import { readEdge, readEnds, readOutline, readTaper } from './words.ts';

const fault = (read: () => unknown): string => {
  try {
    read();
  } catch (error) {
    return (error as Error).message;
  }
  return '';
};

describe('the words of a shape', () => {
  it('are read in both spellings, in any case and with any spacing', () => {
    expect(readOutline('Top', ' Round ')).toEqual({ kind: 'round' });
    expect(readOutline('Top', 'Oval top')).toEqual({ kind: 'oval' });
    expect(readOutline('Top', 'superellipse')).toEqual({ kind: 'superellipse', exponent: 2.5 });
    expect(readOutline('Top', 'superellipse  3,5')).toEqual({
      kind: 'superellipse',
      exponent: 3.5,
    });
    expect(readOutline('Top', 'rounded corners')).toEqual({ kind: 'rounded' });
    expect(readOutline('Top', 'box')).toBeUndefined();
    expect(readTaper('Leg', 'two inside faces')).toBe('inside');
    expect(readTaper('Leg', 'all four')).toBe('four');
    expect(readTaper('Leg', 'the front, left and front faces')).toEqual(['front', 'left']);
    expect(readEdge('Top', 'Round over top')).toEqual({ profile: 'roundover', at: ['top'] });
    expect(readEdge('Top', 'chamfer all around')).toEqual({ profile: 'chamfer', at: [] });
    expect(readEdge('Top', 'cove bottom edge')).toEqual({ profile: 'cove', at: ['bottom'] });
    const mitred = { cuts: [{ kind: 'mitre', angle: 45, at: 'left' }] };
    for (const words of ['mitred 45 left', 'Mitered 45° left', 'miter 45 degrees at left end']) {
      expect(readEnds('Rail', words)).toEqual(mitred);
    }
    expect(readEnds('Rail', 'bevelled 4.9')).toEqual(readEnds('Rail', 'beveled 4.9°'));
    expect(readEnds('Rail', 'mitered 10 top longer, beveled 5 right')).toEqual({
      cuts: [
        { kind: 'mitre', angle: 10, longer: 'top' },
        { kind: 'bevel', angle: 5, at: 'right' },
      ],
    });
    expect(readEnds('Leg', 'square')).toEqual({ cuts: [], lie: 'square' });
  });

  it('are the ways that are listed for choosing', () => {
    for (const { words } of SHAPE_FORMS.shape)
      expect(fault(() => readOutline('Top', words))).toBe('');
    for (const { words } of SHAPE_FORMS.taper)
      expect(fault(() => readTaper('Leg', words))).toBe('');
    for (const { words } of SHAPE_FORMS.ends) expect(fault(() => readEnds('Leg', words))).toBe('');
    for (const { words } of SHAPE_FORMS.edge) expect(fault(() => readEdge('Top', words))).toBe('');
  });

  it('say what is wrong with what they do not know, and the nearest', () => {
    expect(fault(() => readOutline('Top', 'ovel'))).toBe(
      'The shape of Top says "ovel", which shapes nothing. Nearest: "oval".',
    );
    expect(fault(() => readOutline('Top', 'qqqq'))).toContain('It takes round, oval');
    expect(fault(() => readOutline('Top', 'superellipse 40'))).toContain('it may be 1.2 to 20');
    expect(fault(() => readTaper('Leg', 'inner'))).toContain('The taper of Leg says "inner"');
    expect(fault(() => readEnds('Rail', 'mitered'))).toContain(
      'write the degrees away from square',
    );
    expect(fault(() => readEnds('Rail', 'mitered 95'))).toContain('95°');
    expect(fault(() => readEnds('Rail', 'mitered 45, mitered 30 left'))).toContain('twice');
    expect(fault(() => readEnds('Leg', 'level, square'))).toContain('both level and square');
    expect(fault(() => readEdge('Top', `chamfer ${'very '.repeat(60)}`))).toContain('…');
  });
});

describe('what a row says of its shape', () => {
  it('is nothing where it says nothing', () => {
    expect(readForm('Top', {})).toEqual({ wrong: [] });
    expect(readForm('Top', { shape: 'box', 'splay along': 0 })).toEqual({ wrong: [] });
  });

  it('is plain data', () => {
    expect(readForm('Leg', { taper: 'inside', 'taper to': 30, 'splay across': 7 })).toEqual({
      form: { taper: { faces: 'inside', to: 30, from: 0 } },
      lean: { along: 0, across: 7 },
      wrong: [],
    });
    expect(readForm('Top', { corner: 50 }).form).toEqual({
      outline: { kind: 'rounded', radius: 50 },
    });
  });

  it('keeps the rest where one head cannot be read, and says what is missing', () => {
    const says = (cells: Parameters<typeof readForm>[1]) =>
      readForm('Leg', cells).wrong.map(({ column, says }) => `${column}: ${says}`);
    const both = readForm('Leg', {
      taper: 'inner',
      'taper to': 20,
      edge: 'chamfer',
      'edge size': 3,
    });
    expect(both.form).toEqual({ edge: { profile: 'chamfer', at: [], size: 3 } });
    expect(both.wrong).toHaveLength(1);
    expect(says({ taper: 'inside' })).toEqual([
      'taper: Leg is tapered, and not to what. Write the size left at the narrow end under taper to.',
    ]);
    expect(says({ 'taper to': 30 })[0]).toContain('taper to: Leg has a taper to and no taper.');
    expect(says({ edge: 'chamfer' })[0]).toContain('no size of it');
    expect(says({ 'edge size': 3 })[0]).toContain('no edge');
    expect(says({ shape: 'rounded corners' })[0]).toContain('no radius');
    expect(says({ shape: 'oval', corner: 3 })[0]).toContain('Leg is oval and has no corners');
    expect(says({ 'splay along': 70 })[0]).toBe(
      'splay along: The splay along of Leg is 70°; it may be -60 to 60, so make it that.',
    );
  });
});
