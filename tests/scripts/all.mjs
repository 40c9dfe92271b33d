import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  ensureBrowser,
  ensureBuilt,
  ensureInstalled,
  NotReady,
  runToEnd,
  runTurbo,
} from '../../apps/cli/scripts/ensure.mjs';
import { forgetResults, RESULT_FILE, readTally, slowestFiles } from './results.mjs';

/**
 * `npm test`: installs what is missing, then lint, types, import direction, build and every test.
 * A step that fails counts as one failure, and the steps after it run all the same. The last line
 * is always `N passed, N failed`.
 */

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const bin = (/** @type {string} */ name) => join(root, 'node_modules', '.bin', name);
/** @type {string[]} */
const failedSteps = [];

/** @param {string} title @param {() => Promise<number>} work */
async function step(title, work) {
  const began = Date.now();
  console.log(`\n── ${title}`);
  const problem = await attempt(work);
  const seconds = ((Date.now() - began) / 1000).toFixed(1);
  console.log(`── ${title}: ${problem === undefined ? 'done' : 'FAILED'} in ${seconds} s`);
  if (problem !== undefined) failedSteps.push(problem === '' ? title : `${title}: ${problem}`);
  return problem === undefined;
}

/** @param {() => Promise<number>} work @returns {Promise<string | undefined>} what went wrong */
async function attempt(work) {
  try {
    return (await work()) === 0 ? undefined : '';
  } catch (error) {
    if (error instanceof NotReady) return error.message;
    throw error;
  }
}

/** @param {string} command @param {...string} args */
const tool = (command, ...args) => runToEnd(command, args, { cwd: root, output: 'inherit' });

/** Every workspace that has tests to run. */
function workspaces() {
  return ['packages', 'apps']
    .flatMap((group) => readdirSync(join(root, group)).map((name) => join(root, group, name)))
    .concat(join(root, 'tests'))
    .filter((home) => existsSync(join(home, 'package.json')))
    .map((home) => ({ home, about: JSON.parse(readFileSync(join(home, 'package.json'), 'utf8')) }))
    .filter(({ about }) => about.scripts?.test !== undefined)
    .map(({ home, about }) => ({ home, name: String(about.name) }));
}

function runTests() {
  for (const { home } of workspaces()) forgetResults(home);
  // One workspace at a time: each spreads over all processors, of which Vitest by itself leaves one free.
  // All of them run and none is taken from a cache, whatever failed before.
  const how = ['--only', '--force', '--continue=always', '--concurrency=1', '--log-order=stream'];
  const results = ['--reporter=default', '--reporter=json', `--outputFile.json=${RESULT_FILE}`];
  return runTurbo(root, ['test', ...how, '--', '--maxWorkers=100%', ...results], 'inherit');
}

function summary() {
  const tallies = workspaces().map(({ name, home }) => readTally(name, home));
  console.log('');
  for (const { name, seconds } of slowestFiles(tallies)) {
    console.log(`${`${seconds.toFixed(0)} s`.padStart(6)} ${relative(root, name)}`);
  }
  console.log('');
  for (const { workspace, passed, failed, notes, seconds } of tallies) {
    const counts = `${passed} passed, ${failed} failed`;
    console.log(`${workspace.padEnd(22)} ${counts}, ${seconds.toFixed(0)} s`);
    for (const note of notes) console.log(`${''.padEnd(22)} ${note.replace(root, '.')}`);
  }
  for (const failure of failedSteps) console.log(`failed step            ${failure}`);
  const passed = tallies.reduce((sum, tally) => sum + tally.passed, 0);
  const failed = tallies.reduce((sum, tally) => sum + tally.failed, 0);
  return { passed, failed };
}

/** @param {{ passed: number, failed: number }} counts */
function close({ passed, failed }) {
  console.log(`\n${passed} passed, ${failed} failed`);
  process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
}

const ready = await step('Install', async () => {
  await ensureInstalled(root);
  return 0;
});
if (!ready) {
  for (const failure of failedSteps) console.log(failure);
  close({ passed: 0, failed: 1 });
} else {
  await step('Format and lint', () => tool(bin('biome'), 'check', '.', '--error-on-warnings'));
  await step('Direction of imports', () =>
    tool(process.execPath, join(relative(process.cwd(), root) || '.', 'tests/scripts/imports.mjs')),
  );
  await step('Build', async () => {
    await ensureBuilt(root);
    return 0;
  });
  await step('Types, tests included', () => tool(bin('tsc'), '-p', join(root, 'tests')));
  await step('Browser', async () => {
    console.log(await ensureBrowser());
    return 0;
  });
  const testsPassed = await step('Tests', runTests);
  const { passed, failed } = summary();
  // The step of the tests fails when a test does; it counts by itself only when no test owns up.
  const steps = failedSteps.filter((failure) => failure !== 'Tests').length;
  const unowned = !testsPassed && failed === 0 ? 1 : 0;
  close({ passed, failed: failed + steps + unowned });
}
