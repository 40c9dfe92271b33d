import { describe, expect, it } from 'vitest';
import { chooseEye, shareSeen } from './choose-eye.ts';
import { explode } from './explode.ts';
import { DEFAULT_EYE, type Eye } from './eye.ts';
import { facesSeen } from './parallel.ts';
import { readParts } from './parts.ts';
import { buildScene, type Scene } from './scene.ts';
import { sceneOf } from './testing/boxes.ts';
import { HEADER, SAMPLE, type TableSizes, tableRows } from './testing/dining-table.ts';
import { fakeBook } from './testing/fake-book.ts';

const table = (sizes: Partial<TableSizes> = {}): Scene =>
  buildScene(readParts(fakeBook([HEADER, ...tableRows({ ...SAMPLE, ...sizes })])).parts);

/** Of each part, the piece of which most can be seen. */
function bestShares(scene: Scene, eye: Eye): Record<string, number> {
  const best: Record<string, number> = {};
  for (const seen of facesSeen(scene, eye)) {
    const { name } = seen.piece.part;
    best[name] = Math.max(best[name] ?? 0, shareSeen(seen));
  }
  return best;
}

describe('how much of a piece is seen', () => {
  it('is all of a face looked at square on, and a half of one that is half covered', () => {
    const front = { azimuth: 0, elevation: 0 };
    const [alone, covering] = facesSeen(
      sceneOf([
        [0, 100, 0, 100, 10, 100],
        [50, 0, 0, 100, 10, 100],
      ]),
      front,
    ).map(shareSeen);
    expect(alone).toBeCloseTo(0.5, 9);
    expect(covering).toBeCloseTo(1, 9);
  });

  it('is foreshortened with the face: the sine of 30 degrees of a sheet that lies flat', () => {
    const [sheet = Number.NaN] = facesSeen(sceneOf([[0, 0, 0, 500, 500, 0.001]]), {
      azimuth: 0,
      elevation: 30,
    }).map((seen) => {
      const flat = seen.faces.filter(({ axis }) => axis === 'z');
      return shareSeen({ ...seen, faces: flat });
    });
    expect(sheet).toBeCloseTo(0.5, 6);
  });

  it('is nothing of a piece inside another', () => {
    const [inner] = facesSeen(
      sceneOf([
        [10, 10, 10, 10, 10, 10],
        [0, 0, 0, 50, 50, 50],
      ]),
      DEFAULT_EYE,
    ).map(shareSeen);
    expect(inner).toBe(0);
  });
});

describe('the eye that is chosen', () => {
  it('shows top, legs and all aprons of a table, which one from high up does not', () => {
    const scene = table();
    const shares = bestShares(scene, chooseEye(scene));
    const wanted = ['Top', 'Leg, left', 'Leg, right', 'Apron, long', 'Apron, short'];
    for (const name of wanted) expect([name, (shares[name] ?? 0) > 0.2]).toEqual([name, true]);
    expect(bestShares(scene, { azimuth: 40, elevation: 35 })['Apron, short']).toBeLessThan(0.1);
  });

  it('shows every single piece of the exploded table', () => {
    const { scene } = explode(table());
    for (const seen of facesSeen(scene, chooseEye(scene))) {
      expect([seen.piece.part.name, shareSeen(seen) > 0.25]).toEqual([seen.piece.part.name, true]);
    }
  });

  it('is the same while a table grows inch by inch by a foot', () => {
    const eyes = Array.from({ length: 13 }, (_, inch) => chooseEye(table({ length: 84 + inch })));
    expect(new Set(eyes.map((eye) => JSON.stringify(eye))).size).toBe(1);
  });

  it('is high for a thing that hides nothing, and the usual one where nothing is drawn', () => {
    expect(chooseEye(sceneOf([[0, 0, 0, 300, 200, 100]]))).toEqual({ azimuth: 40, elevation: 25 });
    expect(chooseEye(sceneOf([]))).toEqual(DEFAULT_EYE);
  });
});
