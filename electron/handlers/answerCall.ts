// One call from the page: parse, act, parse the reply. Whatever goes wrong inside comes back as a failure in
// words; the page never sees a stack.
import {
  channelNames,
  channels,
  type ChannelName,
  type ReplyOf,
  type RequestOf,
} from '../../shared/channels/channels';
import { failed, type Outcome } from '../../shared/errors/failure';
import { answerAbout } from './about';
import { answerExportFile } from './exportFile';
import { answerAppendJournal, answerClearJournal, answerReadJournal } from './journal';
import { answerOpenFile } from './openFile';
import { answerOpenRecent } from './openRecent';
import { answerRecentFiles } from './recentFiles';
import { answerSaveJob } from './saveJob';
import type { Services } from './services';
import { answerSetDocumentState } from './setDocumentState';
import { answerReadSettings, answerWriteSettings } from './settings';
import { answerStartFile } from './startFile';

const handlers: {
  readonly [N in ChannelName]: (request: RequestOf<N>, services: Services) => Promise<Outcome<ReplyOf<N>>>;
} = {
  about: answerAbout,
  startFile: answerStartFile,
  openFile: answerOpenFile,
  openRecent: answerOpenRecent,
  recentFiles: answerRecentFiles,
  saveJob: answerSaveJob,
  exportFile: answerExportFile,
  readJournal: answerReadJournal,
  appendJournal: answerAppendJournal,
  clearJournal: answerClearJournal,
  readSettings: answerReadSettings,
  writeSettings: answerWriteSettings,
  setDocumentState: answerSetDocumentState,
};

export function isChannelName(name: string): name is ChannelName {
  return (channelNames as readonly string[]).includes(name);
}

export async function answerCall<N extends ChannelName>(
  name: N,
  raw: unknown,
  services: Services,
): Promise<Outcome<unknown>> {
  const request = channels[name].request.safeParse(raw);
  if (!request.success) {
    const why = request.error.issues[0]?.message ?? 'it does not have the agreed form';
    return failed('bad-request', name, `the call was not understood (${why})`, 'Reload the window');
  }
  try {
    const outcome = await handlers[name](request.data as RequestOf<N>, services);
    if (!outcome.ok) return outcome;
    return { ok: true, value: channels[name].reply.parse(outcome.value) };
  } catch (error) {
    services.mistake(name, error);
    return failed(
      'unexpected',
      name,
      'the program made a mistake here',
      'Save your work under a new name, then restart',
    );
  }
}
