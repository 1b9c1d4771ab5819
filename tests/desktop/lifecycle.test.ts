import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Page } from 'playwright';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { stageButton } from './plan';
import {
  answerGuard,
  desktopCommand,
  freshFolder,
  startBrowser,
  startDesktop,
  type DesktopProgram,
  type Program,
} from './program';
import { canShowBrowser, canShowDesktop } from './surroundings';

const DEMO = resolve('demo-data', 'school.lapjob');

let folder = '';
let dataFolder = '';
let running: Program[] = [];

beforeEach(async () => {
  folder = await freshFolder();
  dataFolder = join(folder, 'data');
  running = [];
});

afterEach(async () => {
  for (const program of running) await program.close().catch(() => undefined);
  await rm(folder, { recursive: true, force: true });
});

const desktop = async (file?: string): Promise<DesktopProgram> => {
  const program = await startDesktop({ dataFolder, ...(file === undefined ? {} : { file }) });
  running.push(program);
  await stageButton(program.page, 'Plan').waitFor();
  return program;
};

/** One change that leaves the job unsaved. */
async function change(page: Page): Promise<void> {
  await page.getByRole('textbox', { name: 'Client' }).fill('An invented client');
  await page.getByRole('textbox', { name: 'Client' }).press('Enter');
  await page.getByText('changes not saved').waitFor();
}

const closeWindow = ({ app }: DesktopProgram): Promise<void> =>
  app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.close());

const journalOf = (data: string): Promise<string> =>
  readFile(join(data, 'journal-1.jsonl'), 'utf8').catch(() => '');

describe.skipIf(!canShowDesktop)('closing with unsaved work', () => {
  test('Cancel stays, Save saves and closes', async () => {
    const program = await desktop();
    await change(program.page);
    await answerGuard(program.app, 'Cancel');
    await closeWindow(program);
    await program.page.getByText('changes not saved').waitFor();

    const saved = join(folder, 'Saved.lapjob');
    await answerGuard(program.app, 'Save');
    const ended = program.app.waitForEvent('close');
    await program.keep(saved, () => closeWindow(program));
    await ended;
    expect((await readFile(saved)).subarray(0, 2).toString()).toBe('PK');
    expect(await journalOf(dataFolder)).toBe('');
  });

  test("Don't save closes, and forgets the journal", async () => {
    const program = await desktop();
    await change(program.page);
    await expect.poll(() => journalOf(dataFolder)).not.toBe('');
    await answerGuard(program.app, "Don't save");
    const ended = program.app.waitForEvent('close');
    await closeWindow(program);
    await ended;
    expect(await journalOf(dataFolder)).toBe('');
  });

  test('a save that fails keeps the window open and the job unsaved', async () => {
    await writeFile(join(folder, 'plain'), 'no folder');
    const program = await desktop();
    await change(program.page);
    await answerGuard(program.app, 'Save');
    await program.keep(join(folder, 'plain', 'Job.lapjob'), () => closeWindow(program));
    await program.page.getByText(/the folder is not there any more\. Choose another folder\./).waitFor();
    await program.page.getByText('changes not saved').waitFor();
  });
});

describe.skipIf(!canShowDesktop)('the desktop program', () => {
  test('brings unsaved work back after a crash', async () => {
    const first = await desktop();
    await change(first.page);
    await expect.poll(() => journalOf(dataFolder)).toContain('An invented client');
    const dead = once(first.app.process(), 'exit');
    first.app.process().kill('SIGKILL');
    await dead;
    running = [];
    const second = await desktop();
    await second.page.getByText(/Recovered unsaved work: 1 change/).waitFor();
    expect(await second.page.getByRole('textbox', { name: 'Client' }).inputValue()).toBe(
      'An invented client',
    );
  });

  test('hands a file over to the window that is open', async () => {
    const first = await desktop();
    await first.page.getByRole('button', { name: /^Gannet Slip/ }).waitFor();
    const office = resolve('demo-data', 'office.lapjob');
    const { command, words, env } = desktopCommand(dataFolder, office);
    const second = spawn(command, words, { env, stdio: 'ignore' });
    await once(second, 'exit');
    await first.page.getByRole('button', { name: /^Pilot Row/ }).waitFor();
    expect(await first.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length)).toBe(1);
  });

  test('says what menu entry was chosen', async () => {
    const program = await desktop();
    await change(program.page);
    await program.app.evaluate(({ Menu }) => Menu.getApplicationMenu()?.getMenuItemById('undo')?.click());
    await expect
      .poll(() => program.page.getByRole('textbox', { name: 'Client' }).inputValue())
      .not.toBe('An invented client');
  });

  test('comes back where it was left, and starts with settings that are torn', async () => {
    const first = await desktop();
    const left = { x: 60, y: 40, width: 1180, height: 760 };
    await first.app.evaluate(
      ({ BrowserWindow }, bounds) => BrowserWindow.getAllWindows()[0]?.setBounds(bounds),
      left,
    );
    await first.close();
    await writeFile(join(dataFolder, 'settings.json'), '{"theme": "da');
    const second = await desktop();
    const { width, height } = await second.app.evaluate(
      ({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.getBounds() ?? { width: 0, height: 0 },
    );
    expect([width, height]).toEqual([left.width, left.height]);
    expect(second.complaints).toEqual([]);
  });

  test('opens the demo as a copy: saving asks for a place', async () => {
    const before = await readFile(DEMO);
    const program = await desktop();
    await program.page.getByRole('button', { name: /^Gannet Slip/ }).waitFor();
    const saved = join(folder, 'Own.lapjob');
    await program.keep(saved, () => program.page.keyboard.press('Control+s'));
    await program.page.getByText('Saved.').waitFor();
    expect(existsSync(saved)).toBe(true);
    expect((await readFile(DEMO)).equals(before)).toBe(true);
    expect((await readdir('demo-data')).filter((name) => name.startsWith('.'))).toEqual([]);
  });
});

const ways = [
  ['in the desktop window', canShowDesktop, startDesktop],
  ['in a browser', canShowBrowser, startBrowser],
] as const;

describe.each(ways)('wrong files %s', (_way, can, start) => {
  test.skipIf(!can)('each get a sentence, and leave the open job untouched', async () => {
    await mkdir(dataFolder);
    const program = await start({ dataFolder });
    running.push(program);
    const { page } = program;
    const name = page.getByRole('button', { name: /^Gannet Slip/ });
    await name.waitFor();
    const demo = await readFile(DEMO);
    const half = demo.subarray(0, demo.byteLength / 2);
    const wrong: readonly [string, Uint8Array, 'Open…' | 'Import a plan…', RegExp][] = [
      ['text.pdf', Buffer.from('This is no drawing.'), 'Import a plan…', /neither a plan nor a job file/],
      [
        'broken.pdf',
        Buffer.from('%PDF-1.7\nnothing'),
        'Import a plan…',
        /begins like a PDF but cannot be read/,
      ],
      ['half.lapjob', half, 'Open…', /damaged or only half written.*untouched/],
      ['text.lapjob', Buffer.from('This is no job.'), 'Open…', /neither a plan nor a job file/],
    ];
    for (const [file, bytes, entry, sentence] of wrong) {
      const path = join(folder, file);
      await writeFile(path, bytes);
      await program.pick(path, async () => {
        await page.getByRole('button', { name: /file menu/ }).click();
        await page.getByRole('menuitem', { name: entry }).click();
      });
      await page.getByText(sentence).waitFor();
      await name.waitFor();
    }
    await page.getByText('not saved to a file yet').waitFor();
  });
});
