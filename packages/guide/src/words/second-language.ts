import type { PartProblem } from '@kerfbook/drawing';
import type { GuideSource } from '../source.ts';
import { knownTable, TableRow } from '../steps/table.ts';

/** What a workbook's words are called in its second language. */
export interface Translation {
  /** Which language it is, a tag after BCP 47; undefined where the workbook does not say. */
  readonly language: string | undefined;
  /** A text of the plan in it; the text itself where there are no words for it, which is noted. */
  readonly say: (words: string) => string;
  /** Texts that were asked for and have no words yet, each once, in the order they were asked for. */
  readonly missing: () => readonly string[];
  /** What is wrong with its rows, each at its cell. */
  readonly problems: readonly PartProblem[];
}

/** The table of words in a second language; undefined where the workbook has none. */
export function readTranslation(source: GuideSource): Translation | undefined {
  const table = knownTable(source, 'words');
  if (table === undefined) return undefined;
  const said = new Map<string, string>();
  const problems: PartProblem[] = [...table.problems];
  for (let row = table.first; row < table.end; row += 1) {
    const line = new TableRow(source, table, row);
    const [words, translated] = [line.words('words'), line.words('translated')];
    problems.push(...line.problems);
    if (words === undefined || translated === undefined) continue;
    if (said.has(words)) {
      problems.push({
        at: line.at('words'),
        says: `"${words}" stands here twice; only the first is used. Delete this row.`,
      });
    } else said.set(words, translated);
  }
  const missing = new Set<string>();
  return {
    language: source.head.guide?.second,
    say: (words) => {
      const found = said.get(words.trim());
      if (found === undefined && words.trim() !== '') missing.add(words.trim());
      return found ?? words;
    },
    missing: () => [...missing],
    problems,
  };
}
