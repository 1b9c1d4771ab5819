// Passes on what the title says and whether closing would lose work.
import type { RequestOf } from '../../shared/channels/channels';
import { done, type Outcome } from '../../shared/errors/failure';
import type { Services } from './services';

export async function answerSetDocumentState(
  state: RequestOf<'setDocumentState'>,
  services: Services,
): Promise<Outcome<null>> {
  services.documentState(state);
  return done(null);
}
