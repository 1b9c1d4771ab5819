// Drawings as they come: locked, of many pages, scanned askew, larger than A0.
import { existsSync } from 'node:fs';
import { rm, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { pagesPdf } from '../support/pagesPdf';
import { clickPlan, onScreen, stageButton } from './plan';
import type { PagePoint } from './plan';
import { freshFolder, startBrowser } from './program';
import type { Program } from './program';
import { canShowBrowser } from './surroundings';

let folder = '';
let program: Program;
let page: Page;
beforeAll(async () => {
  folder = await freshFolder();
});
afterAll(() => rm(folder, { recursive: true, force: true }));
beforeEach(async () => {
  if (!canShowBrowser) return;
  program = await startBrowser({ size: { width: 1440, height: 900 } });
  page = program.page;
  await stageButton(page, 'Plan').click();
});
afterEach(async () => {
  if (canShowBrowser) await program.close();
});

async function importPlan(path: string): Promise<void> {
  await program.pick(path, () => page.getByRole('button', { name: 'Import a plan' }).first().click());
}

const pages = () => page.getByRole('list', { name: 'Pages', exact: true }).getByRole('listitem');
const settled = (shown: Page) => shown.locator('canvas[data-settled=true]').first().waitFor();

describe.skipIf(!canShowBrowser)('a locked drawing', () => {
  test('asks for its password until it is right, and opens', async () => {
    const plan = join(folder, 'locked.pdf');
    await writeFile(plan, await pagesPdf(1, 'gannet'));
    await importPlan(plan);
    const prompt = page.getByRole('dialog', { name: 'locked.pdf is locked' });
    await prompt.getByLabel('Password').fill('puffin');
    await prompt.getByRole('button', { name: 'Open' }).click();
    await prompt.getByText('That password does not open it').waitFor();
    await prompt.getByLabel('Password').fill('gannet');
    await prompt.getByRole('button', { name: 'Open' }).click();
    await prompt.waitFor({ state: 'detached' });
    await pages().filter({ hasText: 'A-101' }).waitFor();
    expect(program.complaints).toEqual([]);
  });
  test('leaves the job as it was where nobody knows the password', async () => {
    const plan = join(folder, 'locked.pdf');
    await writeFile(plan, await pagesPdf(1, 'gannet'));
    const before = await pages().allInnerTexts();
    await importPlan(plan);
    const prompt = page.getByRole('dialog', { name: 'locked.pdf is locked' });
    await prompt.getByRole('button', { name: 'Cancel' }).click();
    await prompt.waitFor({ state: 'detached' });
    expect(await pages().allInnerTexts()).toEqual(before);
  });
});

describe.skipIf(!canShowBrowser)('a drawing of several pages', () => {
  test('gives the pages whose numbers are typed, named by their title blocks, with small pictures', async () => {
    const plan = join(folder, 'set.pdf');
    await writeFile(plan, await pagesPdf(6));
    await importPlan(plan);
    const chooser = page.getByRole('dialog', { name: 'Which pages of set.pdf?' });
    const numbers = chooser.getByLabel('Pages, of 6');
    await numbers.fill('2, 9');
    await chooser.getByText('The pages are 1 to 6').waitFor();
    expect(await chooser.getByRole('button', { name: /^Import/ }).isDisabled()).toBe(true);
    await numbers.fill('2, 4-5');
    expect(await chooser.getByRole('checkbox', { name: /^Page 4/ }).isChecked()).toBe(true);
    await chooser.getByRole('button', { name: 'Import 3 pages' }).click();
    await pages().filter({ hasText: 'A-105' }).waitFor();
    const names = await pages().locator('.page-name').allInnerTexts();
    expect(names.slice(-3)).toEqual(['A-102', 'A-104', 'A-105']);
    for (const name of ['A-102', 'A-104', 'A-105'])
      await pages().filter({ hasText: name }).locator('.thumb[data-painted=true]').waitFor();
    const name = page.getByLabel('Name of this sheet');
    await name.fill('A-102 Lower roof');
    await name.press('Enter');
    await pages().filter({ hasText: 'A-102 Lower roof' }).waitFor();
    // Away and back again: the lines are there to be traced.
    await pages().filter({ hasText: 'A-104' }).getByRole('button').first().click();
    await settled(page);
    await pages().filter({ hasText: 'A-102 Lower roof' }).getByRole('button').first().click();
    await settled(page);
    const scale = page.getByLabel('Scale of this sheet');
    await scale.fill('1:100');
    await scale.press('Enter');
    await stageButton(page, 'Roof').click();
    await page
      .getByRole('button', { name: 'Take from the drawing' })
      .or(page.getByRole('button', { name: /Take a roof/ }))
      .first()
      .click();
    await clickPlan(page, [[200, 250]]);
    await page.getByText(/4 corners, no openings/).waitFor();
    expect(program.complaints).toEqual([]);
  });
});

describe.skipIf(!canShowBrowser)('a scan', () => {
  test('is told to be a picture, is levelled by two points, and measures the same both ways', async () => {
    await importPlan(resolve('demo-data/school-roof-A-scan.pdf'));
    await page.getByText('This sheet is a picture').waitFor();
    await settled(page);
    // Edges of the roof as they lie on the glass, 0.6° askew: 60 m across and 46 m up.
    const [corner, right, up] = [onGlass([73.6, 68]), onGlass([673.6, 68]), onGlass([73.6, 528])];
    await page.getByRole('button', { name: 'From two lengths, both ways' }).click();
    await clickPlan(page, [corner, right]);
    await page.getByLabel('True length').fill('60 m');
    await page.getByLabel('True length').press('Enter');
    await clickPlan(page, [corner, up]);
    await page.getByLabel('True length').fill('46 m');
    await page.getByLabel('True length').press('Enter');
    await page.getByText(/^Set from 60.000 mm across the sheet and 46.000 mm up it\.$/).waitFor();
    await page.getByRole('button', { name: 'Level the sheet' }).click();
    await settled(page);
    await clickPlan(page, [corner, right]);
    await page.getByText(/The sheet is turned by 0\.60° with the clock/).waitFor();
    await page.getByRole('button', { name: 'Show it as it comes' }).waitFor();
    await page.getByText('This sheet is a picture').waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByText('Turned by 0.60° with the clock.').waitFor({ state: 'detached' });
    expect(program.complaints).toEqual([]);
  });
});

/** From mm on the paper to points of the scan. */
function onGlass([x, y]: PagePoint): PagePoint {
  const turn = (0.6 * Math.PI) / 180;
  const [dx, dy] = [x - 841 / 2, y - 594 / 2];
  const u = 841 / 2 + dx * Math.cos(turn) - dy * Math.sin(turn) + 1.6;
  const v = 594 / 2 + dx * Math.sin(turn) + dy * Math.cos(turn) - 2.4;
  return [(u / 25.4) * 72, (v / 25.4) * 72];
}

/** Lies beside the checkout where there is one; never part of the project. */
const LARGE = resolve('../shared/plans/floor-larger-than-A0.pdf');

describe.skipIf(!canShowBrowser || !existsSync(LARGE))('a sheet larger than A0', () => {
  test('opens, zooms and snaps like any other', async () => {
    await importPlan(LARGE);
    await page
      .getByRole('button', { name: /floor-larger-than-A0.*no scale/ })
      .and(page.locator('[aria-current]'))
      .waitFor();
    await page.getByText(/2.303 lines: layers and widths/).waitFor();
    await settled(page);
    const scale = page.getByLabel('Scale of this sheet');
    await scale.fill('1:10');
    await scale.press('Enter');
    // A room that is 5.444 m wide, clicked a little beside its corners, from far off and then near.
    const [left, right]: readonly [PagePoint, PagePoint] = [
      [1797.727, 3698.278],
      [3340.908, 3698.278],
    ];
    for (const turns of [0, 4]) {
      const [x, y] = await onScreen(page, [2569, 3698]);
      await page.mouse.move(x, y);
      for (let k = 0; k < turns; k++) await page.mouse.wheel(0, -120);
      await settled(page);
      await page.getByRole('button', { name: 'Measure', exact: true }).click();
      for (const corner of [left, right]) {
        const [cx, cy] = await onScreen(page, corner);
        await page.mouse.move(cx + 3, cy - 2);
        await page.mouse.down();
        await page.mouse.up();
      }
      await page.getByText(/Measured 5.444 mm\./).waitFor();
      await page.keyboard.press('Escape');
    }
    expect(program.complaints).toEqual([]);
  });
});
