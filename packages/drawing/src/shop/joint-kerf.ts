import { type EndTrim, endTrimOf, type Kerf, kerfOf } from './kerf.ts';
import type { ShopSource } from './shop-plan.ts';

/** A job, as far as its saw is spoken of. */
interface Sawn {
  readonly mark: string;
  readonly source: ShopSource;
}

/** Sizes that differ by less are the same: what converting between inch and millimetre adds. */
const NEAR = 1e-3;

/** The widest of the kerfs: what is planned with it fits with a narrower blade too. */
export function jointKerf(
  jobs: readonly Sawn[],
  format: (mm: number) => string,
): { readonly kerf: Kerf; readonly notes: readonly string[] } {
  const all = jobs.map(({ mark, source }) => ({ mark, kerf: kerfOf(source) }));
  const known = all.filter(({ kerf }) => kerf.says === undefined);
  const [first] = all;
  if (known.length === 0) return { kerf: first?.kerf ?? { mm: 0 }, notes: [] };
  const mm = Math.max(...known.map(({ kerf }) => kerf.mm));
  const unknown = all.filter(({ kerf }) => kerf.says !== undefined);
  const differ = known.some(({ kerf }) => mm - kerf.mm > NEAR);
  const each = known.map(({ mark, kerf }) => `${mark} ${format(kerf.mm)}`).join(', ');
  return {
    kerf: { mm },
    notes: [
      ...(differ
        ? [`The kerfs differ: ${each}. All is planned with the widest, ${format(mm)}.`]
        : []),
      ...(unknown.length > 0
        ? [`${listed(unknown)} without a kerf: planned with ${format(mm)}, as the others.`]
        : []),
    ],
  };
}

const listed = (jobs: readonly { readonly mark: string }[]): string =>
  `${jobs.map(({ mark }) => mark).join(', ')} ${jobs.length === 1 ? 'is' : 'are'}`;

/** The most that one of the jobs trims off the ends of boards. */
export function jointTrim(
  jobs: readonly Sawn[],
  format: (mm: number) => string,
): { readonly endTrim: EndTrim; readonly notes: readonly string[] } {
  const all = jobs.map(({ mark, source }) => ({ mark, trim: endTrimOf(source) }));
  const mm = Math.max(0, ...all.map(({ trim }) => trim.mm));
  const differ = all.some(({ trim }) => mm - trim.mm > NEAR);
  const each = all.map(({ mark, trim }) => `${mark} ${format(trim.mm)}`).join(', ');
  return {
    endTrim: { mm },
    notes: [
      ...all.flatMap(({ mark, trim }) =>
        trim.problem === undefined ? [] : [`${mark}: ${trim.problem.says}`],
      ),
      ...(differ
        ? [
            `What is trimmed off the ends of boards differs: ${each}. All is planned with the most, ${format(mm)}.`,
          ]
        : []),
    ],
  };
}
