// The bridge in a browser: files come from its own picker and go by download; the rest is asked of the host.
import type { Bridge, OpenedFile } from '../../shared/channels/bridge';
import { answerSchema } from '../../shared/channels/channel';
import { channels } from '../../shared/channels/channels';
import type { ChannelName, ReplyOf, RequestOf } from '../../shared/channels/channels';
import { packMessage, unpackMessage } from '../../shared/channels/wire';
import { errorOf } from '../../shared/errors/failure';

export function createBrowserBridge(): Bridge {
  let unsaved = false;
  window.addEventListener('beforeunload', (event) => {
    if (unsaved) event.preventDefault();
  });
  return {
    kind: 'browser',
    about: () => call('about', null),
    startFile: () => call('startFile', null),
    openFile: (kind) => pickFile(kind === 'job' ? '.lapjob' : '.pdf,.dxf,application/pdf'),
    openRecent: (target) => call('openRecent', target),
    recentFiles: () => call('recentFiles', null),
    async saveJob(job) {
      if (job.target !== null) return call('saveJob', job);
      download(job.name, job.bytes, 'application/zip');
      return { name: job.name, target: null };
    },
    exportFile(file) {
      download(file.name, file.bytes, 'application/octet-stream');
      return Promise.resolve(true);
    },
    readJournal: () => call('readJournal', null),
    appendJournal: async (lines) => void (await call('appendJournal', lines)),
    clearJournal: async () => void (await call('clearJournal', null)),
    readSettings: () => call('readSettings', null),
    writeSettings: async (settings) =>
      void (await call('writeSettings', settings as RequestOf<'writeSettings'>)),
    setDocumentState(state) {
      unsaved = state.unsaved;
      document.title = `${state.unsaved ? '• ' : ''}${state.name} · Lapstrake`;
      return Promise.resolve();
    },
    onMenu: () => () => {},
    onFile: () => () => {},
  };
}

async function call<N extends ChannelName>(name: N, request: RequestOf<N>): Promise<ReplyOf<N>> {
  const response = await fetch(`/call/${name}`, {
    method: 'POST',
    credentials: 'same-origin',
    headers: { 'Content-Type': 'application/octet-stream' },
    body: packMessage(request) as Uint8Array<ArrayBuffer>,
  }).catch(() => null);
  if (!response)
    throw new Error(
      'Lapstrake’s host is gone. Start it again; what is on screen stays until this page is closed.',
    );
  if (!response.ok)
    throw new Error(
      `The host refused the call (${response.status}). Open the address it printed when it started.`,
    );
  const answer = answerSchema.parse(unpackMessage(new Uint8Array(await response.arrayBuffer())));
  if (!answer.ok) throw errorOf(answer.failure);
  return channels[name].reply.parse(answer.value) as ReplyOf<N>;
}

function pickFile(accept: string): Promise<OpenedFile | null> {
  return new Promise((resolve, reject) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.addEventListener('cancel', () => resolve(null));
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (!file) return resolve(null);
      file.arrayBuffer().then(
        (buffer) => resolve({ name: file.name, bytes: new Uint8Array(buffer), target: null }),
        () =>
          reject(new Error(`${file.name}: the browser could not read it. Copy it elsewhere and try again.`)),
      );
    });
    input.click();
  });
}

function download(name: string, bytes: Uint8Array, type: string): void {
  const url = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  window.setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
