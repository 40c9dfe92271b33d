import type { BookDocument } from '@kerfbook/workbook';

/** An invented stool whose workbook has every kind of part that a file can hold. */
export function fullSpecimen(): BookDocument {
  return {
    kerfbook: 8,
    promises: ['rack', 'finish'],
    results: ['price', 'weight'],
    title: 'An invented step stool',
    about: 'Made up: "quotes", back\\slashes, two\nlines and ½ 板.',
    units: 'metric',
    currency: 'EUR',
    licence: 'CC0-1.0',
    author: 'Nobody in particular',
    tags: ['stool', 'oak, white'],
    guide: {
      title: 'A step stool for anyone',
      before: 'Made up: read it all first.',
      inputs: ['stool_length'],
      hides: ['notes'],
      tone: 'moss',
      second: 'de',
    },
    photos: { clamps: { says: 'Made up', data: 'data:image/png;base64,AbC=' } },
    lineage: {
      template: 'stool',
      revision: 3,
      key: 'step-stool',
      base: '0123456789abcdef'.repeat(4),
      text: 'AwA=',
    },
    sheets: [
      {
        id: 's1',
        name: 'Main sizes',
        frozenColumns: 1,
        frozenRows: 1,
        columns: [
          { id: 'c1', width: 180 },
          { id: 'c2' },
          { id: 'c3', hidden: true },
          { id: 'ck4' },
        ],
        rows: [
          {
            id: 'r1',
            cells: {
              c1: { value: 'Length', role: 'heading', style: { bold: true, align: 'start' } },
              c2: {
                value: 420,
                typed: '42 cm',
                quantity: 'length',
                show: { as: 'decimal', unit: 'mm', decimals: 0 },
                role: 'input',
                name: 'stool_length',
                remark: 'From wall to wall.',
                allow: { min: 100, max: 900, whole: true },
              },
              ck4: { formula: '=SORT([c2.r1]:[c2.r4])' },
            },
          },
          {
            id: 'r2',
            hidden: true,
            group: 1,
            cells: {
              c1: { value: true },
              c2: {
                formula: '=stool_length/2+[$c2.$r4]',
                role: 'calculated',
                override: { value: 300, typed: '30 cm' },
                quantity: 'length',
                name: 'breite_ü',
              },
            },
          },
          {
            id: 'r3',
            group: 2,
            cells: {
              c2: {
                value: 'Beech',
                name: 'wood',
                allow: { list: ['Beech', 'Oak, white'], from: 'woods' },
              },
              c3: {
                formula: '=IF(stool_length>400,"long, ""very""","short")',
                style: { background: 'sand', wrap: true },
              },
            },
          },
          {
            id: 'r4',
            cells: {
              c1: { value: -0.5, quantity: 'money' },
              c2: { formula: '=SUM([s2!c1.r2]:[c1.r4])*1E-2+\'My "parts"\'!B2' },
              c3: { formula: '=SPECIFIC_GRAVITY(wood)' },
            },
          },
        ],
      },
      {
        id: 's2',
        name: 'My "parts"',
        hidden: true,
        columns: [{ id: 'c1' }, { id: 'c2' }, { id: 'c3' }, { id: 'c4' }, { id: 'c5' }],
        rows: [
          {
            id: 'r1',
            cells: {
              c1: { value: 'part' },
              c2: { value: 'count' },
              c3: { value: 'length' },
              c4: { value: 'width' },
              c5: { value: 'thickness' },
            },
          },
          {
            id: 'r2',
            cells: {
              c1: { value: 'Leg' },
              c2: { value: 4, quantity: 'count' },
              c3: { formula: '=stool_length', quantity: 'length' },
              c4: { value: 40, quantity: 'length' },
              c5: { value: 40, quantity: 'length' },
            },
          },
          { id: 'r3', cells: {} },
          { id: 'r4', cells: { c1: { value: 7 }, c2: {} } },
        ],
      },
      {
        id: 's3',
        name: '木',
        columns: [{ id: 'c1' }, { id: 'c2' }],
        rows: [
          { id: 'r1', cells: { c1: { value: 'species' }, c2: { value: 'gravity' } } },
          { id: 'r2', cells: { c1: { value: 'Beech' }, c2: { value: 0.68 } } },
        ],
      },
    ],
    checks: [
      {
        id: 'k1',
        name: 'Long enough',
        sheet: 's1',
        formula: '=stool_length>=[s1!c2.r2]',
        severity: 'stop',
        says: 'A stool of {stool_length} in {wood} is short; {none} is unknown.',
        cells: '=[c2.r1]:[c2.r2]',
      },
      { id: 'k2', name: 'Sum', formula: "='Main sizes'!B4<9", severity: 'care', says: 'Much.' },
    ],
    tables: [
      { id: 't1', kind: 'parts', sheet: 's2', header: 'r1', last: 'r4' },
      { id: 't2', kind: 'woods', sheet: 's3', header: 'r1', last: 'r2' },
      { id: 't3', kind: 'joints', sheet: 's1', header: 'r1', last: 'r2' },
    ],
  };
}
