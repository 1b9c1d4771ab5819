// The Welds stage by mouse and by keys: a course goes to another day, what that brings is said while it hangs in the
// air, Escape brings it back, and one undo takes the move back. Machines and rows of the tables come and go.
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { stageButton } from './plan';
import { startBrowser, startDesktop, type Program, type Start } from './program';
import { canShowBrowser, canShowDesktop } from './surroundings';

const ways: readonly [string, boolean, (how: Start) => Promise<Program>][] = [
  ['in the desktop window', canShowDesktop, startDesktop],
  ['in a browser over the loopback host', canShowBrowser, startBrowser],
];

const day = (page: Page, number: number): Locator => page.locator(`[data-day="${number}"]`);
const course = (page: Page, number: number): Locator =>
  page.getByRole('button', { name: `Course A-C${String(number).padStart(2, '0')}`, exact: true });

async function openWelds(page: Page): Promise<void> {
  await stageButton(page, 'Welds').click();
  await day(page, 12).waitFor();
}

async function hang(page: Page, from: Locator, over: Locator): Promise<void> {
  await over.scrollIntoViewIfNeeded();
  await from.scrollIntoViewIfNeeded();
  const [start, end] = [await from.boundingBox(), await over.boundingBox()];
  if (!start || !end) throw new Error('the course or the day is not on screen');
  await page.mouse.move(start.x + start.width / 2, start.y + start.height / 2);
  await page.mouse.down();
  await page.mouse.move(end.x + 40, end.y + 12, { steps: 5 });
}

describe.each(ways)('a course and its day %s', (_way, can, start) => {
  test.skipIf(!can)('by mouse, by keys, and back', async () => {
    const program = await start({ size: { width: 1440, height: 900 } });
    const { page } = program;
    const undo = page.getByRole('button', { name: 'Undo', exact: true });
    try {
      await openWelds(page);
      expect(await day(page, 2).innerText()).toContain('Course A-C05');

      await hang(page, course(page, 5), day(page, 4));
      await page.getByText(/Course A-C05 on day 4/).waitFor();
      await page.getByText(/The work ends on day \d+, not 12/).waitFor();
      await page.keyboard.press('Escape');
      await page.mouse.up();
      await page.getByText(/Course A-C05 on day 4/).waitFor({ state: 'detached' });
      expect(await undo.isDisabled()).toBe(true);

      await hang(page, course(page, 5), day(page, 4));
      await page.getByText(/The work ends on day \d+, not 12/).waitFor();
      await page.mouse.up();
      await expect.poll(() => day(page, 4).innerText()).toContain('Course A-C05');
      expect(await day(page, 2).innerText()).not.toContain('Course A-C05');
      await undo.click();
      await expect.poll(() => day(page, 2).innerText()).toContain('Course A-C05');

      // A course cannot be laid before those under it: the mouse says so at once, and nothing is lost.
      await hang(page, course(page, 9), day(page, 1));
      await page
        .getByText(/Course A-C09 cannot be laid on day 1/)
        .first()
        .waitFor();
      await page.keyboard.press('Escape');
      await page.mouse.up();

      await course(page, 5).focus();
      await page.keyboard.press('Enter');
      const wait = day(page, 4).getByRole('button', { name: 'Course A-C05 waits for this day' });
      await wait.focus();
      await page.keyboard.press('Enter');
      await expect.poll(() => day(page, 4).innerText()).toContain('Course A-C05');
      await page.getByText(/The work ends on day \d+, not 12/).waitFor();
      expect(program.complaints).toEqual([]);
    } finally {
      await program.close();
    }
  });

  test.skipIf(!can)('a second machine comes, draws its current, and goes', async () => {
    const program = await start({ size: { width: 1440, height: 900 } });
    const { page } = program;
    try {
      await openWelds(page);
      await page.getByText('Machines, 1', { exact: true }).click();
      await page.getByText('Supply and lead', { exact: true }).click();
      await page.getByText('4.6 kW running, × 1.25').waitFor();
      await page.getByRole('button', { name: 'Add a machine' }).click();
      await page.getByText('9.2 kW running, × 1.25').waitFor();
      await page.getByText('2 machine(s) at once').waitFor();
      await day(page, 3)
        .getByText(/test strips/)
        .click();
      await day(page, 3)
        .getByText(/Machine 2 runs/)
        .waitFor();
      await page.getByRole('button', { name: 'Take out Machine 1' }).click();
      await page.getByText('4.6 kW running, × 1.25').waitFor();
      expect(program.complaints).toEqual([]);
    } finally {
      await program.close();
    }
  });
});

describe('the log on a tablet held upright', () => {
  test.skipIf(!canShowBrowser)(
    'is filled in by touch, and no target in it is smaller than 44 px',
    async () => {
      const program = await startBrowser({ size: { width: 820, height: 1180 }, pointer: 'touch' });
      const { page } = program;
      const tap = (role: 'button' | 'radio', name: string | RegExp) => page.getByRole(role, { name }).tap();
      try {
        await openWelds(page);
        await tap('button', 'Log');
        await tap('button', /Issue the layout as number 1/);
        await tap('radio', 'Welded');
        await page.getByText(/A test strip is due first: start of the day/).waitFor();
        await tap('radio', 'Test strip');
        await tap('radio', 'Reinforcement bare over the whole weld');
        await tap('button', 'Write it down');
        await page.getByText('Log, 1', { exact: true }).waitFor();

        await tap('radio', 'Welded');
        await page.getByText(/A test strip is due first/).waitFor({ state: 'detached' });
        const first = await page.getByRole('button', { name: /^Next: / }).innerText();
        await tap('button', /^Next: /);
        await tap('button', 'Write it down');
        await page.getByRole('button', { name: '1 welded' }).waitFor();
        await page.getByRole('button', { name: /^Next: / }).waitFor();
        expect(await page.getByRole('button', { name: /^Next: / }).innerText()).not.toBe(first);

        await tap('radio', 'Cut-out');
        await page.getByRole('combobox', { name: 'Seam' }).selectOption(first.replace('Next: ', ''));
        await tap('radio', 'Peeled clean');
        // A unit alone is no reading.
        await page.getByRole('combobox', { name: 'Unit' }).selectOption('N/50 mm');
        await page.getByText(/It peeled clean: a cold weld, however high it reads/).waitFor();
        await tap('button', 'Write it down');
        await page.getByRole('alert').filter({ hasText: 'to be probed again after a failed test' }).waitFor();

        const small = await page
          .locator('#log')
          .locator('button, input, select, summary')
          .evaluateAll((all) =>
            all
              .map((one) => ({ said: one.textContent, box: one.getBoundingClientRect() }))
              .filter(({ box }) => box.width > 0 && (box.width < 44 || box.height < 44))
              .map(({ said, box }) => `${said} ${box.width} × ${box.height}`),
          );
        expect(small).toEqual([]);
        expect(program.complaints).toEqual([]);
      } finally {
        await program.close();
      }
    },
  );
});
