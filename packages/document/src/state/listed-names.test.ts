import { describe, expect, it } from 'vitest';
import { namesInColumn, renamedListed } from './listed-names.ts';

describe('names of cells in columns of tables', () => {
  it.each([
    ['list', 'top_length, Top_Width,price', 'top_length, w,price'],
    ['list', 'top_width', 'w'],
    ['list', ' top_width , top_width_more', ' w , top_width_more'],
    [
      'clauses',
      'top_width 60..108/6; species white oak, top_width',
      'w 60..108/6; species white oak, top_width',
    ],
    ['clauses', 'species oak ;top_width=3', 'species oak ;w=3'],
    ['head', ' Top_width ', ' w '],
    ['head', 'top_width and more', 'top_width and more'],
  ] as const)('follow as a %s: %s', (how, text, after) => {
    expect(renamedListed(text, how, 'TOP_width', 'w')).toBe(after);
  });

  it('stand where the kind of table says', () => {
    expect(namesInColumn('studies', ' Over ')).toBe('clauses');
    expect(namesInColumn('studies', 'study')).toBeUndefined();
    for (const word of ['constructor', '__proto__', 'toString']) {
      expect(namesInColumn('studies', word)).toBeUndefined();
      expect(namesInColumn(word, 'name')).toBeUndefined();
    }
    expect(namesInColumn('variants', 'top_length')).toBe('head');
    expect(namesInColumn('parts', 'over')).toBeUndefined();
  });
});
