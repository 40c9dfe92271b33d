import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** A cell as the judge has it: where it is, counted from 0, and what it comes to. */
export type JudgedCell = readonly [
  sheet: string,
  row: number,
  column: number,
  kind: 'number' | 'text' | 'error',
  value: number | string,
  formula: string | null,
];

/** What the judge is asked about one file. */
export interface JudgeJob {
  readonly path: string;
  /** Numbers and words to be typed into named cells, each set by itself. */
  readonly inputs?: readonly Readonly<Record<string, number | string>>[];
  /** Where it saves the file, once worked out. */
  readonly save?: string;
  /** What it calls the format that it is saved in. */
  readonly filter?: string;
}

/** What it answers. */
export interface Judgement {
  readonly cells: readonly JudgedCell[];
  readonly after: readonly (readonly JudgedCell[])[];
  readonly pictures: readonly JudgedPicture[];
}

/** A picture as the judge has it: its sheet, and how large it stands there in 1/100 mm. */
export type JudgedPicture = readonly [sheet: string, width: number, height: number];

/** The Python that Debian's python3-uno belongs to. */
const PYTHON = '/usr/bin/python3';
const SCRIPT = fileURLToPath(new URL('judge.py', import.meta.url));

/** Why there is no judge here; undefined where LibreOffice, started by this name, can be asked. */
export function whyNoJudge(office = 'soffice'): string | undefined {
  const how = 'apt-get install libreoffice-calc-nogui python3-uno';
  if (!existsSync(PYTHON)) return `there is no ${PYTHON} (${how})`;
  if (spawnSync(office, ['--version']).status !== 0) return `LibreOffice is not here (${how})`;
  return spawnSync(PYTHON, ['-c', 'import uno']).status === 0
    ? undefined
    : `python3-uno is not here (${how})`;
}

/** Asks LibreOffice, which opens each file, works it out anew and says what all its cells come to. */
export function judge(jobs: readonly JudgeJob[]): readonly Judgement[] {
  const answer = execFileSync(PYTHON, [SCRIPT], {
    input: JSON.stringify(jobs),
    maxBuffer: 512 * 1024 * 1024,
    timeout: 280_000,
  });
  return JSON.parse(answer.toString('utf8')) as readonly Judgement[];
}
