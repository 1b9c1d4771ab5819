// `npm run pictures`: the README's screenshots, every stage at two window sizes, from the built window in a browser.
import { spawn } from 'node:child_process';
import { mkdtemp, mkdir } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright';

const SIZES = [
  [1440, 900],
  [1100, 700],
];
const STAGES = ['plan', 'roof', 'sheets', 'welds', 'order', 'bid'];

await mkdir('.pictures', { recursive: true });
for (const [width, height] of SIZES) {
  const data = await mkdtemp(join(tmpdir(), 'lapstrake-pictures-'));
  const env = { ...process.env, LAPSTRAKE_DATA: data, LAPSTRAKE_OPEN: 'no' };
  const program = spawn('node', ['dist/electron/start.mjs', '--browser'], { env });
  const address = await new Promise((found) => {
    let said = '';
    program.stdout.on('data', (chunk) => {
      said += chunk;
      const match = said.match(/http:\/\/127\S+/);
      if (match) found(match[0]);
    });
  });
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
    args: ['--no-sandbox'],
  });
  const page = await browser.newPage({ viewport: { width, height }, colorScheme: 'light' });
  await page.goto(address);
  for (const stage of STAGES) {
    await page.locator(`button[data-stage=${stage}]`).click();
    await page.locator('[data-settled]').first().waitFor();
    await page.waitForTimeout(1500);
    await page.screenshot({ path: `.pictures/${stage}-${width}.png` });
  }
  await browser.close();
  program.kill();
}
