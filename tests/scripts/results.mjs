import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';

/**
 * What the tests of one workspace came to.
 * @typedef {object} Tally
 * @property {string} workspace
 * @property {number} passed
 * @property {number} failed tests that failed, files that could not run, and tests that were left out
 * @property {string[]} notes what else a reader should know, a line each
 * @property {number} seconds from where the tests of its first file began to where those of its last one ended
 * @property {FileTime[]} files how long each of its files took
 */

/**
 * @typedef {object} FileTime
 * @property {string} name
 * @property {number} seconds
 */

/** Where each workspace leaves the results of its tests. */
export const RESULT_FILE = '.results/vitest.json';

/** How many files are told as slow. */
const SLOWEST = 10;

/** @param {string} home a workspace's folder */
const resultFile = (home) => join(home, RESULT_FILE);

/** Takes old results away, so that a run that never happened cannot count. @param {string} home */
export function forgetResults(home) {
  rmSync(resultFile(home), { force: true });
}

/**
 * Reads the results that a workspace's tests left behind.
 * @param {string} workspace
 * @param {string} home its folder
 * @returns {Tally}
 */
export function readTally(workspace, home) {
  const file = resultFile(home);
  if (!existsSync(file)) {
    return {
      workspace,
      passed: 0,
      failed: 1,
      notes: ['its tests left no results: they did not run'],
      seconds: 0,
      files: [],
    };
  }
  return tallyOf(workspace, JSON.parse(readFileSync(file, 'utf8')));
}

/**
 * Counts a test runner's report and names what failed: the end of a long log is what gets read. A test that
 * was tried again and then passed is passed, and named too: something in it hangs on chance. A file that breaks before its first test has no failed test to
 * its name, and a test that is left out proves nothing: both count as failed.
 * @param {string} workspace
 * @param {{ testResults: readonly { name: string, status: string, message?: string,
 *   startTime?: number, endTime?: number,
 *   assertionResults: readonly { status: string, fullName: string,
 *     failureMessages?: readonly string[] }[] }[] }} report
 * @returns {Tally}
 */
export function tallyOf(workspace, report) {
  const tally = {
    workspace,
    passed: 0,
    failed: 0,
    notes: /** @type {string[]} */ ([]),
    ...timesOf(report.testResults),
  };
  for (const file of report.testResults) {
    const failed = file.assertionResults.filter((test) => test.status === 'failed').length;
    const passed = file.assertionResults.filter((test) => test.status === 'passed').length;
    const left = file.assertionResults.length - failed - passed;
    const broken = file.status === 'failed' && failed === 0 ? 1 : 0;
    tally.passed += passed;
    tally.failed += failed + left + broken;
    for (const test of file.assertionResults) {
      const [first] = test.failureMessages ?? [];
      if (first === undefined) continue;
      const how = test.status === 'passed' ? 'passed on a second try' : 'failed';
      tally.notes.push(`${how}: ${test.fullName} (${file.name}): ${first.split('\n', 1)[0]}`);
    }
    if (broken > 0) tally.notes.push(`could not run ${file.name}`);
    if (left > 0)
      tally.notes.push(`${left} left out in ${file.name}: a skipped test counts as failed`);
  }
  if (tally.passed + tally.failed === 0) {
    tally.failed = 1;
    tally.notes.push('it has no tests at all');
  }
  return tally;
}

/**
 * @param {readonly { name: string, startTime?: number, endTime?: number }[]} results
 * @returns {Pick<Tally, 'seconds' | 'files'>}
 */
function timesOf(results) {
  const ran = results.map(({ name, startTime = 0, endTime = 0 }) => ({ name, startTime, endTime }));
  if (ran.length === 0) return { seconds: 0, files: [] };
  const began = Math.min(...ran.map(({ startTime }) => startTime));
  const ended = Math.max(...ran.map(({ endTime }) => endTime));
  return {
    seconds: (ended - began) / 1000,
    files: ran.map(({ name, startTime, endTime }) => ({
      name,
      seconds: (endTime - startTime) / 1000,
    })),
  };
}

/** The files of all workspaces that took longest, the longest first. @param {readonly Tally[]} tallies */
export function slowestFiles(tallies) {
  return tallies
    .flatMap(({ files }) => files)
    .toSorted((one, other) => other.seconds - one.seconds)
    .slice(0, SLOWEST);
}
