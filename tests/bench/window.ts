// The built window on a page of 300,000 strokes, from end to end: the loopback host, a headless browser, the file
// imported and the time until its picture stands and its lines are read; then panning and zooming with some five
// thousand sheets drawn over it, against a blank window in the same browser.
import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright';
import type { Browser, CDPSession, Page } from 'playwright';
import { heavyJob } from './heavyJob';
import { heavyPdf } from './heavyPdf';
import type { Row } from './measure';

export async function benchWindow(quick: boolean): Promise<Row[]> {
  const executablePath = [process.env.CHROMIUM_PATH, '/usr/bin/chromium', chromium.executablePath()].find(
    (path) => path !== undefined && existsSync(path),
  );
  if (executablePath === undefined)
    return [{ name: 'the window', figure: 'no Chromium here (or its path in CHROMIUM_PATH); left out' }];
  if (!existsSync('dist/electron/start.mjs'))
    return [{ name: 'the window', figure: 'the program is not built (npm run build); left out' }];
  const folder = await mkdtemp(join(tmpdir(), 'lapstrake-bench-'));
  const strokes = quick ? 60_000 : 300_000;
  const pdf = heavyPdf(strokes);
  await writeFile(join(folder, 'heavy.pdf'), pdf);
  await writeFile(join(folder, 'heavy.lapjob'), heavyJob(pdf));
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  try {
    return [...(await benchOpening(browser, folder, strokes)), ...(await benchMoving(browser, folder))];
  } finally {
    await browser.close();
    await rm(folder, { recursive: true, force: true });
  }
}

const LIMIT_MS = 120_000;

async function benchOpening(browser: Browser, folder: string, strokes: number): Promise<Row[]> {
  const host = await startHost(join(folder, 'data-1'));
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  page.setDefaultTimeout(LIMIT_MS);
  try {
    await page.goto(host.address);
    await page.getByRole('button', { name: /file menu/ }).click();
    await page.getByRole('menuitem', { name: /^New job/ }).click();
    await page.getByText('No drawing yet').last().waitFor();
    const yardstick = await page.evaluate(busyLoop);
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByRole('button', { name: 'Import a plan' }).first().click(),
    ]);
    await chooser.setFiles(join(folder, 'heavy.pdf'));
    const marks = await marksOf(page, ['first picture', 'page settled', 'lines read', 'strokes sorted']);
    const busy = await page.evaluate(longestTask);
    const memory = await memoryOf(browser);
    const ms = (name: string): string => `${Math.round(marks[name] ?? NaN)} ms`;
    return [
      { name: 'a fixed loop of arithmetic, to know the machine by', figure: `${yardstick.toFixed(0)} ms` },
      { name: `${strokes} strokes: first picture`, figure: ms('first picture') },
      { name: 'nothing sharper to come', figure: ms('page settled') },
      { name: 'lines read, in their own thread', figure: ms('lines read') },
      { name: 'strokes sorted for tracing, in their own thread', figure: ms('strokes sorted') },
      { name: 'longest task on the window’s thread meanwhile', figure: `${Math.round(busy)} ms` },
      { name: 'memory of the page’s process', figure: memory },
    ];
  } finally {
    await page.close();
    await host.stop();
  }
}

async function benchMoving(browser: Browser, folder: string): Promise<Row[]> {
  const host = await startHost(join(folder, 'data-2'), join(folder, 'heavy.lapjob'));
  const blank = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  page.setDefaultTimeout(LIMIT_MS);
  try {
    await page.goto(host.address);
    await page
      .getByRole('navigation', { name: 'Stages' })
      .getByRole('button', { name: /^Sheets\b/ })
      .click();
    await page
      .getByText(/\d rolls/)
      .first()
      .waitFor();
    await page.locator('canvas[data-settled="true"]').waitFor();
    const drawn = await page.evaluate(() =>
      Number(document.querySelector('canvas[data-shapes]')?.getAttribute('data-shapes')),
    );
    await page.locator('canvas[data-fresh="true"]').waitFor();
    const rows: Row[] = [{ name: 'sheets, laps and welds drawn over the page', figure: String(drawn) }];
    for (const [name, move] of [
      ['panning', 'pan'],
      ['zooming', 'zoom'],
    ] as const) {
      await blank.bringToFront();
      const free = await framesWhile(blank, 'rest');
      await page.bringToFront();
      const session = await page.context().newCDPSession(page);
      const before = await scriptOf(session);
      const busy = await framesWhile(page, move);
      const script = ((await scriptOf(session)) - before) / Math.max(1, busy.frames);
      await session.detach();
      rows.push(
        {
          name,
          figure: `${busy.rate.toFixed(1)} frames a second, a blank window ${free.rate.toFixed(1)}`,
          ratio: { value: busy.rate / free.rate, atLeast: 0.8, against: 'the frame rate of a blank window' },
        },
        { name: `${name}: script a frame (6 ms at most)`, figure: `${script.toFixed(2)} ms` },
      );
    }
    return rows;
  } finally {
    await page.close();
    await blank.close();
    await host.stop();
  }
}

/** Runs in the page: turns the wheel once a frame for a while, and counts the frames. */
async function framesWhile(
  page: Page,
  move: 'rest' | 'pan' | 'zoom',
): Promise<{ readonly frames: number; readonly rate: number }> {
  return page.evaluate(
    (kind) =>
      new Promise<{ frames: number; rate: number }>((done) => {
        const canvas = document.querySelector('canvas[role="application"]');
        const box = canvas?.getBoundingClientRect();
        let frames = 0;
        const start = performance.now();
        const frame = (): void => {
          const now = performance.now();
          if (now - start > 3000) return done({ frames, rate: (1000 * frames) / (now - start) });
          frames++;
          // Back and forth, so that the sheet stays in sight.
          const way = Math.floor(frames / 40) % 2 === 0 ? 1 : -1;
          if (canvas && box && kind !== 'rest')
            canvas.dispatchEvent(
              new WheelEvent('wheel', {
                deltaY: way * (kind === 'pan' ? 12 : 20),
                shiftKey: kind === 'pan',
                clientX: box.left + box.width / 2,
                clientY: box.top + box.height / 2,
                bubbles: true,
                cancelable: true,
              }),
            );
          requestAnimationFrame(frame);
        };
        requestAnimationFrame(frame);
      }),
    move,
  );
}

async function scriptOf(session: CDPSession): Promise<number> {
  await session.send('Performance.enable');
  const { metrics } = await session.send('Performance.getMetrics');
  return 1000 * (metrics.find(({ name }) => name === 'ScriptDuration')?.value ?? NaN);
}

async function marksOf(page: Page, names: readonly string[]): Promise<Record<string, number>> {
  await page.waitForFunction(
    (wanted) => wanted.every((name) => performance.getEntriesByName(name).length > 0),
    names,
    { timeout: LIMIT_MS },
  );
  return page.evaluate((wanted) => {
    const at = (name: string): number => performance.getEntriesByName(name)[0]?.startTime ?? NaN;
    return Object.fromEntries(wanted.map((name) => [name, at(name) - at('page asked')]));
  }, names);
}

function busyLoop(): number {
  const start = performance.now();
  let sum = 0;
  for (let k = 0; k < 50_000_000; k++) sum += k % 7;
  return sum < 0 ? 0 : performance.now() - start;
}

/** Runs in the page; the browser keeps what took longer than 50 ms. */
function longestTask(): Promise<number> {
  return new Promise((done) => {
    const observer = new PerformanceObserver((list) => {
      observer.disconnect();
      const asked = performance.getEntriesByName('page asked')[0]?.startTime ?? 0;
      done(
        Math.max(
          0,
          ...list
            .getEntries()
            .filter((e) => e.startTime > asked)
            .map((e) => e.duration),
        ),
      );
    });
    observer.observe({ type: 'longtask', buffered: true });
    setTimeout(() => done(0), 500);
  });
}

/** The largest process of the browser that draws pages, as the system counts it. */
async function memoryOf(browser: Browser): Promise<string> {
  if (process.platform !== 'linux') return 'not read on this system';
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  const sizes = await Promise.all(
    processInfo
      .filter(({ type }) => type === 'renderer')
      .map(async ({ id }) => {
        const status = await readFile(`/proc/${id}/status`, 'utf8').catch(() => '');
        const [, now = '0'] = /VmRSS:\s+(\d+)/.exec(status) ?? [];
        const [, most = '0'] = /VmHWM:\s+(\d+)/.exec(status) ?? [];
        return { now: Number(now) / 1024, most: Number(most) / 1024 };
      }),
  );
  const largest = sizes.sort((a, b) => b.most - a.most)[0];
  return largest ? `${largest.now.toFixed(0)} MB, ${largest.most.toFixed(0)} MB at most` : 'not to be read';
}

async function startHost(
  dataFolder: string,
  file?: string,
): Promise<{ address: string; stop(): Promise<void> }> {
  const words = ['dist/electron/start.mjs', '--browser', ...(file === undefined ? [] : [file])];
  const child = spawn(process.execPath, words, {
    env: { ...process.env, LAPSTRAKE_DATA: dataFolder, LAPSTRAKE_OPEN: 'no' },
  });
  const said = await saidAddress(child);
  return {
    address: said,
    stop: () =>
      new Promise((resolve) => {
        child.once('exit', () => resolve());
        child.kill('SIGTERM');
      }),
  };
}

function saidAddress(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    const hear = (text: Buffer): void => {
      said += text.toString();
      const [address] = /http:\S+/.exec(said) ?? [];
      if (address !== undefined) resolve(address);
    };
    child.stdout?.on('data', hear);
    child.stderr?.on('data', hear);
    child.once('exit', () => reject(new Error(`the host ended and said only: ${said}`)));
  });
}
