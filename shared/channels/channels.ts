// Every channel by its name: the table that the handlers, the preload, the loopback host and the contract
// tests go through.
import type { z } from 'zod';
import { aboutChannel } from './about';
import { appendJournalChannel } from './appendJournal';
import { clearJournalChannel } from './clearJournal';
import { exportFileChannel } from './exportFile';
import { openFileChannel } from './openFile';
import { openRecentChannel } from './openRecent';
import { readJournalChannel } from './readJournal';
import { readSettingsChannel } from './readSettings';
import { recentFilesChannel } from './recentFiles';
import { saveJobChannel } from './saveJob';
import { setDocumentStateChannel } from './setDocumentState';
import { startFileChannel } from './startFile';
import { writeSettingsChannel } from './writeSettings';

export const channels = {
  about: aboutChannel,
  startFile: startFileChannel,
  openFile: openFileChannel,
  openRecent: openRecentChannel,
  recentFiles: recentFilesChannel,
  saveJob: saveJobChannel,
  exportFile: exportFileChannel,
  readJournal: readJournalChannel,
  appendJournal: appendJournalChannel,
  clearJournal: clearJournalChannel,
  readSettings: readSettingsChannel,
  writeSettings: writeSettingsChannel,
  setDocumentState: setDocumentStateChannel,
} as const;

export type ChannelName = keyof typeof channels;
export type RequestOf<N extends ChannelName> = z.infer<(typeof channels)[N]['request']>;
export type ReplyOf<N extends ChannelName> = z.infer<(typeof channels)[N]['reply']>;

export const channelNames = Object.keys(channels) as readonly ChannelName[];
