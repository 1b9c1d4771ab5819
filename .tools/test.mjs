// What `npm test` runs: the steps one after another, each announced in a line, and a summary whose last line is
// `N passed, N failed`. --deep lengthens the property tests and the fuzzing.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const deep = process.argv.includes('--deep');
const folder = await mkdtemp(join(tmpdir(), 'lapstrake-test-'));
const results = [];

const env = { ...process.env, ...(deep ? { LAPSTRAKE_DEEP: '1' } : {}) };

await step('build', 'builds what the tests start', 'node', ['.tools/build.mjs']);
await step('types', 'checks the types', 'npm', ['run', '--silent', 'typecheck']);
await step('lint', 'checks style, imports and formatting', 'npm', ['run', '--silent', 'lint']);
await vitest('unit', 'runs the unit, law, standards, contract and editor tests');
await desktop();
await step('bench', 'times the chain, quickly', 'npm', ['run', '--silent', 'bench', '--', '--quick']);

await rm(folder, { recursive: true, force: true });
process.exitCode = summary();

async function step(name, what, command, words) {
  announce(name, what);
  const status = await run(command, words);
  results.push({ name, passed: status === 0 ? 1 : 0, failed: status === 0 ? 0 : 1, skipped: 0 });
}

async function vitest(project, what) {
  announce(project, what);
  const report = join(folder, `${project}.json`);
  const status = await run('npx', [
    'vitest',
    'run',
    '--project',
    project,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ]);
  const counts = await readFile(report, 'utf8').then(JSON.parse, () => null);
  const passed = counts?.numPassedTests ?? 0;
  const skipped = counts?.numPendingTests ?? 0;
  // A file that does not load fails without any test in it; the run as a whole tells.
  const failed = Math.max(counts?.numFailedTests ?? 0, status === 0 && counts ? 0 : 1);
  results.push({ name: project, passed, failed, skipped });
  return { skipped };
}

async function desktop() {
  const { skipped } = await vitest('desktop', 'starts the built program: command line, window, browser');
  if (skipped > 0 && mustRunAll()) {
    results.push({ name: 'desktop, skipped in CI', passed: 0, failed: skipped, skipped: 0 });
  }
}

/** On a machine that is there for testing and has the runtime, a skipped test hides something. */
function mustRunAll() {
  return process.env.CI === 'true' && existsSync(join('..', 'shared', 'tools', 'electron-runtime'));
}

function announce(name, what) {
  console.log(`\n— ${name}: ${what}`);
}

function run(command, words) {
  return new Promise((settle) => {
    const child = spawn(command, words, { stdio: 'inherit', env, shell: process.platform === 'win32' });
    child.once('error', (error) => {
      console.error(`${command}: ${error.message}`);
      settle(1);
    });
    child.once('exit', (status) => settle(status ?? 1));
  });
}

function summary() {
  const sum = (key) => results.reduce((total, result) => total + result[key], 0);
  console.log('\n— summary');
  for (const { name, passed, failed, skipped } of results) {
    const skips = skipped > 0 ? `, ${skipped} skipped` : '';
    console.log(`${name.padEnd(8)} ${passed} passed, ${failed} failed${skips}`);
  }
  console.log(`${sum('passed')} passed, ${sum('failed')} failed`);
  return sum('failed') === 0 ? 0 : 1;
}
