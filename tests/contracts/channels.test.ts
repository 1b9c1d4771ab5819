// Every channel between the window and the side that has files: a good request, a bad one, the reply and the
// refusal, all through the structured clone and through the wire format of the loopback host.
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { answerCall, isChannelName } from '../../electron/handlers/answerCall';
import { openServices } from '../../electron/handlers/openServices';
import type { Dialogs, Services } from '../../electron/handlers/services';
import { answerSchema } from '../../shared/channels/channel';
import { channelNames, channels, type ChannelName } from '../../shared/channels/channels';
import { packMessage, unpackMessage } from '../../shared/channels/wire';
import type { Outcome } from '../../shared/errors/failure';

let folder = '';
let chosen: string | null = null;
let mistakes: unknown[] = [];
let told: unknown[] = [];
let services: Services;

const dialogs: Dialogs = {
  chooseFile: () => Promise.resolve(chosen),
  choosePlace: () => Promise.resolve(chosen),
};

async function start(named: string | null, withDialogs: Dialogs | null = dialogs): Promise<Services> {
  return openServices({
    version: '1.2.3',
    platform: 'test',
    dialogs: withDialogs,
    dataFolder: join(folder, 'data'),
    projectRoot: folder,
    named,
    documentState: (state) => told.push(state),
    mistake: (_where, error) => mistakes.push(error),
  });
}

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'lapstrake-contract-'));
  chosen = null;
  mistakes = [];
  told = [];
  services = await start(null);
});

afterEach(() => rm(folder, { recursive: true, force: true }));

/** As Electron sends it, and as the host sends it: both must tell the same. */
async function ask(name: ChannelName, request: unknown, by = services): Promise<Outcome<unknown>> {
  const cloned = structuredClone(request);
  const answer = structuredClone(await answerCall(name, cloned, by));
  answerSchema.parse(answer);
  expect(unpackMessage(packMessage(answer))).toEqual(answer);
  if (answer.ok) expect(channels[name].reply.parse(answer.value)).toEqual(answer.value);
  return answer;
}

const bytes = new TextEncoder().encode('a job');

/** For each channel a request that it takes. */
const good: Record<ChannelName, unknown> = {
  about: null,
  startFile: null,
  openFile: 'job',
  openRecent: '0123456789abcdef0123456789abcdef',
  recentFiles: null,
  saveJob: { name: 'Quay.lapjob', bytes, target: null },
  exportFile: { name: 'order.csv', bytes },
  readJournal: null,
  appendJournal: '{"kind":"setDisplay"}\n',
  clearJournal: null,
  readSettings: null,
  writeSettings: { theme: 'dark' },
  setDocumentState: { name: 'Quay', unsaved: true },
};

/** And requests that it must not take. */
const bad: Record<ChannelName, readonly unknown[]> = {
  about: [1, {}],
  startFile: ['x', 0],
  openFile: ['folder', null, 7],
  openRecent: ['../job.lapjob', '/etc/passwd', '', null, 5],
  recentFiles: [[]],
  saveJob: [
    { name: '../Quay.lapjob', bytes, target: null },
    { name: 'Quay.lapjob', bytes: 'text', target: null },
    { name: 'Quay.lapjob', bytes: [1, 2], target: null },
    { name: 'Quay.lapjob', bytes, target: '/etc/passwd' },
    { name: 'Quay.lapjob', bytes },
    { name: 'Quay.lapjob', bytes, target: null, mode: 'w' },
    null,
  ],
  exportFile: [{ name: 'a/b.csv', bytes }, { name: '', bytes }, { name: 'b.csv' }],
  readJournal: [{ all: true }],
  appendJournal: ['', 'no line feed', null, 3],
  clearJournal: ['now'],
  readSettings: [1],
  writeSettings: [undefined],
  setDocumentState: [{ name: 'Quay' }, { name: 4, unsaved: true }, { name: 'Quay', unsaved: 'yes' }],
};

describe('every channel', () => {
  test.each(channelNames)('%s takes a good request and answers in its form', async (name) => {
    const answer = await ask(name, good[name]);
    if (name === 'openRecent')
      expect(answer).toMatchObject({ ok: false, failure: { code: 'unknown-target' } });
    else expect(answer.ok).toBe(true);
    expect(mistakes).toEqual([]);
  });

  test.each(channelNames)('%s refuses bad requests in words', async (name) => {
    for (const request of bad[name]) {
      const answer = await ask(name, request);
      expect(answer).toMatchObject({ ok: false, failure: { code: 'bad-request', where: name } });
    }
    expect(mistakes).toEqual([]);
  });

  test('names are only those of the table', () => {
    expect(channelNames.every(isChannelName)).toBe(true);
    expect(['toString', '__proto__', 'quit', ''].some(isChannelName)).toBe(false);
    for (const name of channelNames) expect(channels[name].name).toBe(name);
  });

  test('a mistake inside comes back as a failure without a stack', async () => {
    const broken: Services = {
      ...services,
      documentState: () => {
        throw new Error('inside');
      },
    };
    const answer = await ask('setDocumentState', good.setDocumentState, broken);
    expect(answer).toMatchObject({ ok: false, failure: { code: 'unexpected' } });
    expect(JSON.stringify(answer)).not.toMatch(/inside|at .*\.ts/);
    expect(mistakes).toHaveLength(1);
  });
});

describe('files', () => {
  test('a job is opened, saved back to its place, and is the next start', async () => {
    const path = join(folder, 'Quay.lapjob');
    await writeFile(path, bytes);
    chosen = path;
    const opened = await ask('openFile', 'job');
    expect(opened).toMatchObject({ ok: true, value: { name: 'Quay.lapjob', bytes } });
    const target = (opened.ok ? (opened.value as { target: string }) : null)?.target;
    const next = new TextEncoder().encode('changed');
    expect(await ask('saveJob', { name: 'Quay.lapjob', bytes: next, target })).toEqual({
      ok: true,
      value: { name: 'Quay.lapjob', target },
    });
    expect(await readFile(path, 'utf8')).toBe('changed');
    expect(await readFile(join(folder, '.lapstrake-versions', 'Quay.lapjob.~1~'), 'utf8')).toBe('a job');
    expect(await ask('recentFiles', null)).toEqual({ ok: true, value: [{ name: 'Quay.lapjob', target }] });
    const later = await start(null);
    expect(await ask('startFile', null, later)).toMatchObject({
      ok: true,
      value: { name: 'Quay.lapjob', target },
    });
  });

  test('three versions are kept, the newest first', async () => {
    for (const text of ['one', 'two', 'three', 'four', 'five']) {
      const known = services.places.wordFor(join(folder, 'Quay.lapjob'));
      await ask('saveJob', { name: 'Quay.lapjob', bytes: new TextEncoder().encode(text), target: known });
    }
    const version = (n: number): Promise<string> =>
      readFile(join(folder, '.lapstrake-versions', `Quay.lapjob.~${n}~`), 'utf8');
    expect(await Promise.all([version(1), version(2), version(3)])).toEqual(['four', 'three', 'two']);
    await expect(version(4)).rejects.toThrow();
  });

  test('a name chosen without its ending gets it, and never falls on another file', async () => {
    chosen = join(folder, 'Quay');
    expect(await ask('saveJob', good.saveJob)).toMatchObject({ ok: true, value: { name: 'Quay.lapjob' } });
    expect(await ask('saveJob', good.saveJob)).toMatchObject({
      ok: false,
      failure: { code: 'not-writable' },
    });
    expect(await readFile(join(folder, 'Quay.lapjob'), 'utf8')).toBe('a job');
  });

  test('thinking better of it changes nothing', async () => {
    expect(await ask('openFile', 'plan')).toEqual({ ok: true, value: null });
    expect(await ask('saveJob', good.saveJob)).toEqual({ ok: true, value: null });
    expect(await ask('exportFile', good.exportFile)).toEqual({ ok: true, value: false });
  });

  test.each([
    ['a folder that is gone', ['gone', 'Quay.lapjob'], 'not-found'],
    ['a file where the folder should be', ['plain', 'Quay.lapjob'], 'not-found'],
    ['a folder of that name', ['folder.lapjob'], 'not-a-file'],
  ])('saving into %s is refused and leaves nothing behind', async (_what, parts, code) => {
    await writeFile(join(folder, 'plain'), 'x');
    await mkdir(join(folder, 'folder.lapjob'));
    const target = services.places.wordFor(join(folder, ...parts));
    const answer = await ask('saveJob', { name: 'Quay.lapjob', bytes, target });
    expect(answer).toMatchObject({ ok: false, failure: { code } });
  });

  test('a demo opens as a copy, a named file as itself, a missing one with a reason', async () => {
    const demo = join(folder, 'demo-data');
    await mkdir(demo);
    await writeFile(join(demo, 'small.lapjob'), 'x');
    await writeFile(join(demo, 'large.lapjob'), 'xxxx');
    expect(await ask('startFile', null)).toMatchObject({
      ok: true,
      value: { name: 'large.lapjob', target: null },
    });
    const named = await start(join(demo, 'small.lapjob'));
    expect(await ask('startFile', null, named)).toMatchObject({ ok: true, value: { name: 'small.lapjob' } });
    const gone = await start(join(folder, 'gone.lapjob'));
    expect(await ask('startFile', null, gone)).toMatchObject({ ok: false, failure: { code: 'not-found' } });
  });

  test('without dialogs the host says that the browser has to do it', async () => {
    const host = await start(null, null);
    for (const name of ['openFile', 'saveJob', 'exportFile'] as const) {
      expect(await ask(name, good[name], host)).toMatchObject({
        ok: false,
        failure: { code: 'not-allowed' },
      });
    }
  });
});

describe('the journal', () => {
  test('what was appended is read back; clearing forgets it', async () => {
    await ask('appendJournal', 'one\n');
    await ask('appendJournal', 'two\n');
    expect(await ask('readJournal', null)).toEqual({ ok: true, value: 'one\ntwo\n' });
    await ask('clearJournal', null);
    expect(await ask('readJournal', null)).toEqual({ ok: true, value: null });
  });

  test('a line torn by a crash is left out', async () => {
    await ask('appendJournal', 'one\n');
    await writeFile(join(folder, 'data', 'journal-1.jsonl'), 'one\n{"kind":"mo');
    expect(await ask('readJournal', null)).toEqual({ ok: true, value: 'one\n' });
  });

  test('two programs on one data folder never share a journal; what a crash left is found again', async () => {
    await ask('appendJournal', 'one\n');
    // Process 1 always lives: another program holds the first journal.
    await writeFile(join(folder, 'data', 'journal-1.pid'), '1');
    const second = await start(null);
    expect(await ask('readJournal', null, second)).toEqual({ ok: true, value: null });
    await ask('appendJournal', 'two\n', second);
    // No process has this id: its holder crashed.
    await writeFile(join(folder, 'data', 'journal-1.pid'), '99999999');
    expect(await ask('readJournal', null, await start(null))).toEqual({ ok: true, value: 'one\n' });
  });

  test('settings that are torn read as none', async () => {
    await ask('writeSettings', { theme: 'dark' });
    expect(await ask('readSettings', null)).toEqual({ ok: true, value: { theme: 'dark' } });
    await writeFile(join(folder, 'data', 'settings.json'), '{"theme":');
    expect(await ask('readSettings', null)).toEqual({ ok: true, value: null });
  });
});
