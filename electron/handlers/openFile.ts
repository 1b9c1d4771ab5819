// Asks for a file and reads it.
import type { OpenedFile } from '../../shared/channels/bridge';
import { done, failed, type Outcome } from '../../shared/errors/failure';
import { readOpened } from './readOpened';
import type { Services } from './services';

export async function answerOpenFile(
  kind: 'job' | 'plan',
  services: Services,
): Promise<Outcome<OpenedFile | null>> {
  if (!services.dialogs) {
    return failed('not-allowed', 'open', 'no dialog can be shown from here', "Use the browser's file picker");
  }
  const path = await services.dialogs.chooseFile(kind);
  return path === null ? done(null) : readOpened(path, services.places);
}
