import type { PartProblem } from '@kerfbook/drawing';
import { knownTable, TableRow } from '@kerfbook/drawing';
import type { GuideSource } from '../source.ts';
import { hasWords, Places, sentencesOf, withPlaces } from '../text/places.ts';

/** A sentence of the program in the language of a page. */
export interface Spoken {
  /** As it stands there. */
  readonly words: string;
  /** Whose words are still in another language; left out where all of it is said. */
  readonly left?: 'program' | 'maker';
}

/** What a workbook's words are called in its second language. */
export interface Translation {
  /** Which language it is, a tag after BCP 47; undefined where the workbook does not say. */
  readonly language: string | undefined;
  /** A text of the plan in it; the text itself where there are no words for it, which is noted. */
  readonly say: (words: string) => string;
  /** Whether it has words for a text; nothing is noted. */
  readonly has: (words: string) => boolean;
  /**
   * A sentence that the program made, with sizes and names of parts in it. What it is a translation of has places where
   * those stand, `{part}: fence {1} from the blade`, and so has the translation.
   */
  readonly made: (sentence: string) => Spoken;
  /** Tells it of words that are names in such a sentence: wherever they stand, or in front of a colon alone. */
  readonly know: (names: Iterable<string>, inFront?: boolean) => void;
  /** Tells it of a name that is put together of others, and of what it is called. */
  readonly knowAs: (name: string, spoken: string) => void;
  /** Texts that were asked for, each once, in the order they were asked for. */
  readonly asked: () => readonly string[];
  /** Those of them that have no words yet. */
  readonly missing: () => readonly string[];
  /** Texts that have a row, with words in it or not. */
  readonly rows: ReadonlySet<string>;
  /** What is wrong with its rows, each at its cell. */
  readonly problems: readonly PartProblem[];
}

/** The table of words in a second language; undefined where the workbook has none. */
export function readTranslation(source: GuideSource): Translation | undefined {
  return knownTable(source, 'words') === undefined ? undefined : translationOf(source);
}

/** The same of any workbook: one without such a table has words for nothing yet. */
export function translationOf(source: GuideSource): Translation {
  const { said, rows, problems } = readWords(source);
  const asked = new Set<string>();
  const places = new Places();
  /** Names as they are in the second language. */
  const there = new Set<string>();
  const composed = new Map<string, string>();
  /** Names in their own language. */
  const here = new Set<string>();
  /** Names that a writing is the beginning of: where a board is short, its label is cut off, `1: Draw…`. */
  const begins = (names: Iterable<string>, writing: string | undefined): boolean =>
    writing !== undefined && [...names].some((name) => name.startsWith(writing));
  const nameIn = (name: string): string | undefined => said.get(name) ?? composed.get(name);
  const find = (words: string): string | undefined => {
    const text = words.trim();
    // Signs and numbers are the same in any language.
    if (!hasWords(text)) return words;
    asked.add(text);
    return said.get(text);
  };
  const one = (sentence: string): Spoken => {
    const whole = said.get(sentence.trim());
    if (whole !== undefined) {
      asked.add(sentence.trim());
      return { words: whole };
    }
    // In a figure a line ends without a point, where it is told with one.
    const { key: told, fills } = places.in(sentence);
    const [key, point] = told.endsWith('.') ? [told.slice(0, -1), '.'] : [told, ''];
    const cut = /^(?:\{1\}: )?(.+)…$/u.exec(key)?.[1];
    if (begins(there, cut)) return { words: sentence };
    if (begins(here, cut)) return { words: sentence, left: 'maker' };
    const speaks = hasWords(key);
    const found = speaks ? find(key) : key;
    const runs = [...fills.values()].flat();
    const joins = runs.some(({ kind, words }) => kind === 'rest' && words.includes(' and '));
    const and = joins ? (find('and') ?? 'and') : 'and';
    const words = withPlaces((found ?? key) + point, fills, (run) =>
      run.kind === 'name'
        ? (nameIn(run.words) ?? run.words)
        : run.words.replaceAll(' and ', ` ${and} `),
    );
    const isNamed = runs.every(
      (run) => run.kind !== 'name' || nameIn(run.words) !== undefined || there.has(run.words),
    );
    if (found === undefined) return { words, left: 'program' };
    return speaks || isNamed ? { words } : { words, left: 'maker' };
  };
  return {
    language: source.head.guide?.second,
    say: (words) => find(words) ?? words,
    has: (words) => said.has(words.trim()) || !hasWords(words),
    made: (text) => {
      const all = sentencesOf(text).map(one);
      const left = all.find((spoken) => spoken.left !== undefined)?.left;
      return {
        words: all.map(({ words }) => words).join(' '),
        ...(left === undefined ? {} : { left }),
      };
    },
    know: (names, inFront) => {
      const all = [...names];
      places.know(all, inFront);
      // In some sentences they stand in their second language already.
      for (const name of all) {
        here.add(name);
        const words = said.get(name);
        if (words === undefined) continue;
        places.know([words], inFront);
        there.add(words);
      }
    },
    knowAs: (name, spoken) => {
      if (composed.get(name) === spoken) return;
      places.know([name, spoken]);
      here.add(name);
      composed.set(name, spoken);
      there.add(spoken);
    },
    asked: () => [...asked],
    missing: () => [...asked].filter((words) => !said.has(words)),
    rows,
    problems,
  };
}

function readWords(source: GuideSource) {
  const said = new Map<string, string>();
  const rows = new Set<string>();
  const table = knownTable(source, 'words');
  const problems: PartProblem[] = [...(table?.problems ?? [])];
  for (let row = table?.first ?? 0; row < (table?.end ?? 0); row += 1) {
    if (table === undefined) break;
    const line = new TableRow(source, table, row);
    const [words, translated] = [line.words('words'), line.words('translated')];
    problems.push(...line.problems);
    if (words !== undefined) rows.add(words);
    if (words === undefined || translated === undefined) continue;
    if (said.has(words)) {
      problems.push({
        at: line.at('words'),
        says: `"${words}" stands here twice; only the first is used. Delete this row.`,
      });
    } else said.set(words, translated);
  }
  return { said, rows, problems };
}
