// The settings file, as plain data.
import type { ReplyOf, RequestOf } from '../../shared/channels/channels';
import { done, type Outcome } from '../../shared/errors/failure';
import { readSmallFile, writeSmallFile } from '../files/smallFiles';
import type { Services } from './services';

export async function answerReadSettings(
  _request: null,
  { settingsFile }: Services,
): Promise<Outcome<ReplyOf<'readSettings'>>> {
  return done((await readSmallFile(settingsFile)) as ReplyOf<'readSettings'>);
}

export function answerWriteSettings(
  settings: RequestOf<'writeSettings'>,
  { settingsFile }: Services,
): Promise<Outcome<null>> {
  return writeSmallFile(settingsFile, settings);
}
