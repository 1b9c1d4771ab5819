// The jobs opened or saved last.
import type { ReplyOf } from '../../shared/channels/channels';
import { done, type Outcome } from '../../shared/errors/failure';
import type { Services } from './services';

export async function answerRecentFiles(
  _request: null,
  services: Services,
): Promise<Outcome<ReplyOf<'recentFiles'>>> {
  return done([...(await services.places.recent())]);
}
