import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';

/**
 * What the tests of one workspace came to.
 * @typedef {object} Tally
 * @property {string} workspace
 * @property {number} passed
 * @property {number} failed tests that failed, files that could not run, and tests that were left out
 * @property {string[]} notes what else a reader should know, a line each
 */

/** Where each workspace leaves the results of its tests. */
export const RESULT_FILE = '.results/vitest.json';

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
 *   assertionResults: readonly { status: string, fullName: string,
 *     failureMessages?: readonly string[] }[] }[] }} report
 * @returns {Tally}
 */
export function tallyOf(workspace, report) {
  const tally = { workspace, passed: 0, failed: 0, notes: /** @type {string[]} */ ([]) };
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
