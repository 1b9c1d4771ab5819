// What the page gets from the program: the functions of `Bridge`, one by one, and nothing with which other
// messages could be sent. Replies and pushed messages are parsed here as the calls are on the other side.
import { contextBridge, ipcRenderer } from 'electron';
import { z } from 'zod';
import type { Bridge } from '../../shared/channels/bridge';
import { answerSchema } from '../../shared/channels/channel';
import { channels, type ChannelName, type ReplyOf, type RequestOf } from '../../shared/channels/channels';
import { filePush, menuPush } from '../../shared/channels/pushed';
import { errorOf } from '../../shared/errors/failure';

// The content policy refuses eval, which the schema library would otherwise use to go faster.
z.config({ jitless: true });

async function call<N extends ChannelName>(name: N, request: RequestOf<N>): Promise<ReplyOf<N>> {
  const answer = answerSchema.parse(await ipcRenderer.invoke(`call:${name}`, request));
  if (!answer.ok) throw errorOf(answer.failure);
  return channels[name].reply.parse(answer.value) as ReplyOf<N>;
}

function listen<T>(
  push: { readonly name: string; readonly message: z.ZodType<T> },
  listener: (message: T) => void,
): () => void {
  const forward = (_event: unknown, message: unknown): void => listener(push.message.parse(message));
  ipcRenderer.on(push.name, forward);
  return () => void ipcRenderer.removeListener(push.name, forward);
}

const bridge = {
  kind: 'desktop',
  about: () => call('about', null),
  startFile: () => call('startFile', null),
  openFile: (kind) => call('openFile', kind),
  openRecent: (target) => call('openRecent', target),
  recentFiles: () => call('recentFiles', null),
  saveJob: (job) => call('saveJob', { name: job.name, bytes: job.bytes, target: job.target }),
  exportFile: (file) => call('exportFile', { name: file.name, bytes: file.bytes }),
  readJournal: () => call('readJournal', null),
  appendJournal: async (lines) => void (await call('appendJournal', lines)),
  clearJournal: async () => void (await call('clearJournal', null)),
  readSettings: () => call('readSettings', null),
  writeSettings: async (settings) => void (await call('writeSettings', z.json().parse(settings))),
  setDocumentState: async (state) => void (await call('setDocumentState', state)),
  onMenu: (listener) => listen(menuPush, listener),
  onFile: (listener) => listen(filePush, listener),
} satisfies Bridge;

contextBridge.exposeInMainWorld('lapstrake', bridge);
