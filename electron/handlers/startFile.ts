// The file the program was started with. A demo is opened as a copy, so that no save changes it.
import type { OpenedFile } from '../../shared/channels/bridge';
import { done, type Outcome } from '../../shared/errors/failure';
import { readOpened } from './readOpened';
import type { Services } from './services';

export async function answerStartFile(
  _request: null,
  services: Services,
): Promise<Outcome<OpenedFile | null>> {
  const start = await services.startFile();
  if (!start) return done(null);
  return readOpened(start.path, services.places, start.from === 'demo' ? 'elsewhere' : 'back');
}
