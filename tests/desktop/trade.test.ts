// The rules of the trade by hand: a tie-in, a valley, a fall to a drain and perimeter rows are drawn on the demo roof,
// the sheets change each time, and one undo takes each back. An end lap is moved by keys and by hand, stays pinned and
// is let go.
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { MAIN_ROOF, priceFromPlan } from './journey';
import { clickPlan, headline, stageButton } from './plan';
import { startBrowser } from './program';
import { canShowBrowser } from './surroundings';

const metres = (page: Page) => headline(page, 'Welds');

async function changes(page: Page, act: () => Promise<void>): Promise<void> {
  const before = await metres(page);
  await act();
  await expect.poll(() => metres(page), { timeout: 20_000 }).not.toBe(before);
}

const tool = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).first().click();

describe('the rules of the trade in a browser over the loopback host', () => {
  test.skipIf(!canShowBrowser)('are drawn, seen in the sheets, and taken back', async () => {
    const program = await startBrowser({ size: { width: 1440, height: 900 } });
    const { page } = program;
    try {
      await priceFromPlan(program, join(program.dataFolder, 'trade.lapjob'));
      const inside = MAIN_ROOF[3]?.[0] ?? NaN;
      const undone = page.getByRole('button', { name: 'Undo', exact: true });
      const start = await metres(page);

      await changes(page, async () => {
        await tool(page, 'Line');
        await clickPlan(page, [
          [inside, 215.433],
          [inside, 1009.134],
        ]);
        await page.getByText(/Tie-in drawn: no sheet crosses it/).waitFor();
      });
      await page.keyboard.press('Escape');
      await undone.click();
      await expect.poll(() => metres(page), { timeout: 20_000 }).toBe(start);

      await page.getByRole('combobox', { name: 'Kind of line' }).selectOption('valley');
      await tool(page, 'Line');
      await clickPlan(page, [
        [300, 300],
        [900, 700],
      ]);
      await page.getByText(/Valley drawn/).waitFor();
      await page.keyboard.press('Escape');

      await tool(page, 'Fitting');
      await clickPlan(page, [[700, 500]]);
      await page.getByText('Drain placed.').waitFor();
      await page.getByRole('combobox', { name: 'What falls' }).selectOption('drain');
      await clickPlan(page, [[700, 500]]);
      await page.getByText(/sides of .* fall to the drain/).waitFor();
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'Pick all round' }).click();
      await changes(page, async () => {
        const rows = page.getByRole('textbox', { name: 'Perimeter rows' });
        await rows.fill('2');
        await rows.press('Enter');
      });

      await stageButton(page, 'Sheets').click();
      await page.getByRole('checkbox', { name: /Laps shed water/ }).waitFor();
      await page.getByText(/^Laps, \d+$/).click();
      await page
        .locator('details[open]')
        .getByRole('button', { name: /^\d+ more$/ })
        .click();
      await page
        .getByRole('table', { name: 'Laps by name' })
        .getByRole('button', { name: /^C\d+\.1\/2$/ })
        .first()
        .click();
      const plan = page.getByRole('application', { name: 'Plan' });
      await plan.focus();
      await page.keyboard.press('Shift+ArrowDown');
      await page.getByText(/The change of pins breaks/).waitFor();
      const pins = page.getByRole('table', { name: 'Pinned end laps' });
      await expect.poll(() => pins.innerText()).toMatch(/C\d+\.\d\/\d/);

      // By hand: the pin is brought to the middle of the plan, and its lap pulled along its course from there.
      const byKeys = await pins.innerText();
      await pins.getByRole('button', { name: /^Pin 1$/ }).click();
      const box = await plan.boundingBox();
      if (!box) throw new Error('the plan is not on screen');
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      const camera = (await plan.getAttribute('data-camera')) ?? '';
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x, y + 20, { steps: 4 });
      await page.getByText(/There it breaks/).waitFor();
      await page.mouse.move(x, y + 40, { steps: 4 });
      await page.mouse.up();
      expect(await plan.getAttribute('data-camera')).toBe(camera);
      await page.getByText(/The change of pins breaks/).waitFor();
      await expect.poll(() => pins.getByRole('row').count()).toBe(1);
      expect(await pins.innerText()).toMatch(/C\d+\.\d\/\d/);
      await undone.click();
      await expect.poll(() => pins.innerText()).toBe(byKeys);

      const pinned = await pins.innerText();
      await pins.getByRole('button', { name: 'Let go of pin 1 of Roof A' }).click();
      await expect.poll(() => pins.innerText()).not.toBe(pinned);
      expect(program.complaints).toEqual([]);
    } finally {
      await program.close();
    }
  });
});
