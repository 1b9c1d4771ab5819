// A job that forbids joints: the window comes to the fewest rolls there are, as the command line does.
import { execFile } from 'node:child_process';
import { rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { FEWEST_ROLLS, steppedFile } from '../support/steppedJob';
import { headline, stageButton } from './plan';
import { freshFolder, startBrowser, startDesktop, type Program } from './program';
import { canShowBrowser, canShowDesktop } from './surroundings';

const run = promisify(execFile);
let folder = '';
let file = '';
beforeAll(async () => {
  folder = await freshFolder();
  file = join(folder, 'steps.lapjob');
  const { bytes, inHaste } = steppedFile();
  expect(inHaste).toBeGreaterThan(FEWEST_ROLLS);
  await writeFile(file, bytes);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('a job whose joints are forbidden', () => {
  test('takes the fewest rolls from the command line', async () => {
    const { stdout } = await run(process.execPath, ['dist/cli/lapstrake.mjs', 'estimate', file], {
      maxBuffer: 1 << 28,
    });
    const { roofs } = JSON.parse(stdout) as { roofs: { layout: { rolls: object } }[] };
    expect(roofs[0]?.layout.rolls).toMatchObject({ count: FEWEST_ROLLS, lowerBound: FEWEST_ROLLS });
  });

  test.skipIf(!canShowBrowser)('and in a browser', async () => showsFewest(await startBrowser({ file })));
  test.skipIf(!canShowDesktop)('and on the desktop', async () => showsFewest(await startDesktop({ file })));
});

async function showsFewest(program: Program): Promise<void> {
  try {
    await stageButton(program.page, 'Sheets').click();
    await expect
      .poll(() => headline(program.page, 'Sheets'), { timeout: 30_000 })
      .toMatch(`${FEWEST_ROLLS} rolls`);
    await program.page.locator('aside[data-lagging=false]').waitFor();
    expect(program.complaints).toEqual([]);
  } finally {
    await program.close();
  }
}
