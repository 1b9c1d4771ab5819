// Reads a file again whose word was given out.
import type { OpenedFile } from '../../shared/channels/bridge';
import { failed, type Outcome } from '../../shared/errors/failure';
import { readOpened } from './readOpened';
import type { Services } from './services';

export async function answerOpenRecent(target: string, services: Services): Promise<Outcome<OpenedFile>> {
  const path = services.places.pathOf(target);
  if (path === null) {
    return failed(
      'unknown-target',
      'recent files',
      'this place is not known any more',
      'Open the file by hand',
    );
  }
  return readOpened(path, services.places);
}
