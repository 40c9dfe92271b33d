import { BookState, formulaOf } from '@kerfbook/document';
import { loadValue, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { FIGURES_WRITTEN_OUT } from './figure-forms.ts';
import { Flattening, sameValue } from './flatten.ts';
import { writeFormula } from './write-formula.ts';

const WOODS = ['white oak', 'black walnut', 'sugar maple', 'eastern white pine'];
const CUTS = ['flat', 'rift', 'quarter'];

const FORMULAS: Readonly<Record<string, string>> = {
  MOVEMENT: '=MOVEMENT(across,wood,dry,wet,cut)',
  MOVEMENT_SWING: '=MOVEMENT_SWING(across,wood,wet,dry)',
  QUARTERS_ROUGH: '=QUARTERS_ROUGH(quarters)+across',
  QUARTERS_PLANED: '=QUARTERS_PLANED(quarters)',
  SCREW_DIAMETER: '=SCREW_DIAMETER(gauge)',
  STIFFNESS: '=STIFFNESS(wood)',
  BENDING_STRENGTH: '=BENDING_STRENGTH(wood)/4',
  SAG_POINT: '=SAG_POINT(across,wet,dry/4,dry/4,wood)',
  SAG_UNIFORM: '=SAG_UNIFORM(across,wet/20,dry/4,dry/4,wood)',
  SHEET_WEIGHT: '=SHEET_WEIGHT(sheet_good,room,dry/8)',
  FRAME_PANEL_WIDTH: '=FRAME_PANEL_WIDTH(across,dry,wood,dry,wet,,cut)',
  SAG_OVERHANG: '=SAG_OVERHANG(across/4,wet/100,dry/4,dry/4,wood,across,dry/1000)',
  SPAN_FOR_SAG: '=SPAN_FOR_SAG(wet/20,dry,dry/4,wood,1/200)',
  SAG_LASTING: '=SAG_LASTING(dry/4,IF(cut="flat",sheet_good,"dry wood"))',
  BREADBOARD_SLOT: '=BREADBOARD_SLOT(across,dry/4,wood,dry,wet,,cut)',
  FRAME_PANEL_GAP: '=FRAME_PANEL_GAP(across+dry,across,dry,wood,dry,wet,cut)',
  OUTDOOR_TEMPERATURE: '=OUTDOOR_TEMPERATURE(place,month)',
  OUTDOOR_HUMIDITY: '=OUTDOOR_HUMIDITY(place,"July")',
  DRAWER_HEIGHT: '=DRAWER_HEIGHT(across,wood,dry,wet,,cut)',
  DOVETAIL_ANGLE: '=DOVETAIL_ANGLE(wood)',
  WOOD_WEIGHT: '=WOOD_WEIGHT(wood,room,wet)',
};

function bookIn(units: 'us' | 'metric'): Workbook {
  const input = (name: string, value: string | number, list?: readonly string[]) => ({
    value,
    name,
    ...(list === undefined ? {} : { allow: { list }, quantity: 'text' }),
  });
  const inputs = [
    input('across', 40),
    input('wood', 'white oak', WOODS),
    input('dry', 6),
    input('wet', 12),
    input('cut', 'flat', CUTS),
    input('quarters', '8/4', ['4/4', '5/4', '8/4', '16/4']),
    input('gauge', '#8', ['#6', '#8', '#10']),
    input('room', 5000),
    input('sheet_good', 'MDF', ['MDF', 'particleboard', 'plywood']),
    input('place', 'Chicago, IL', ['Chicago, IL', 'Denver, CO', 'Lyon']),
    input('month', 'January', ['January', 'July']),
  ];
  const loaded = loadValue({
    kerfbook: 8,
    title: 'A bench for figures',
    units,
    sheets: [
      {
        id: 's1',
        name: 'Sheet',
        columns: [{ id: 'c1' }],
        rows: [
          ...inputs.map((cell, at) => ({ id: `r${at + 1}`, cells: { c1: cell } })),
          ...Object.values(FORMULAS).map((formula, at) => ({
            id: `q${at + 1}`,
            cells: { c1: { formula } },
          })),
        ],
      },
    ],
    checks: [],
    tables: [],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

/** Each formula as it is written out. */
function writtenOut(book: Workbook): ReadonlyMap<string, string> {
  const out = new Flattening(book);
  const state = BookState.of(book.document());
  const found = new Map<string, string>();
  for (const row of state.sheets[0]?.rows ?? []) {
    const cell = row.cells.get('c1');
    const read = cell === undefined ? undefined : formulaOf(cell);
    if (read === undefined) continue;
    const at = { sheet: 's1', row: state.rowIndex('s1', row.id) ?? 0, column: 0 };
    const made = out.formulaOut(read.root, book.value(at), { sheet: 's1', evaluates: 's1' });
    if (!('formula' in made)) throw new Error(`${cell?.formula}: ${made.why}`);
    expect(made.formula.isWrittenOut).toBe(true);
    found.set(cell?.formula ?? '', `=${writeFormula(made.formula.root, out.writing('s1'))}`);
  }
  return found;
}

describe('functions of ours that rest on a figure, written out', () => {
  it('are each tried here', () => {
    expect(Object.keys(FORMULAS).sort()).toEqual([...FIGURES_WRITTEN_OUT].sort());
  });

  for (const units of ['us', 'metric'] as const) {
    it(`follow every word that the cell offers, in ${units}`, () => {
      const book = bookIn(units);
      const forms = writtenOut(book);
      const type = (name: string, text: string): void => {
        const at = book.named(name)?.at;
        if (at === undefined) throw new Error(name);
        const done = book.apply({
          do: 'enter',
          sheet: at.sheet,
          cells: [{ row: at.row, column: at.column, text }],
        });
        if (!done.ok) throw new Error(done.says);
      };
      let compared = 0;
      for (const wood of WOODS) {
        for (const cut of CUTS) {
          type('wood', wood);
          type('cut', cut);
          type('quarters', wood.length % 2 === 0 ? '5/4' : '16/4');
          type('sheet_good', cut === 'quarter' ? 'plywood' : 'particleboard');
          type('place', cut === 'rift' ? 'Lyon' : 'Denver, CO');
          type('month', wood === 'sugar maple' ? 'July' : 'January');
          type('gauge', cut === 'rift' ? '#10' : '#6');
          type('wet', wood === 'black walnut' ? '34' : '9');
          for (const [formula, form] of forms) {
            const ours = book.evaluate(formula);
            if (ours.kind === 'error') continue;
            const comes = book.evaluate(form);
            expect(
              sameValue(comes, ours),
              `${formula} ${JSON.stringify(ours)} ${JSON.stringify(comes)} ${form}`,
            ).toBe(true);
            compared += 1;
          }
        }
      }
      // Where the wood is wetter than it can swell, MOVEMENT itself answers nothing.
      expect(compared).toBeGreaterThan(55);
    });
  }

  it('stay as they are where nothing tells which words there may be', () => {
    const book = bookIn('us');
    const at = book.named('wood')?.at;
    if (at === undefined) throw new Error('wood');
    const cells = [{ row: at.row, column: at.column, traits: { allow: null } }];
    expect(book.apply({ do: 'describeCells', sheet: at.sheet, cells }).ok).toBe(true);
    expect(() => writtenOut(book)).toThrow('is a function of Kerfbook');
  });
});
