// Which version is running, and on what.
import type { ReplyOf } from '../../shared/channels/channels';
import { done, type Outcome } from '../../shared/errors/failure';
import type { Services } from './services';

export async function answerAbout(_request: null, services: Services): Promise<Outcome<ReplyOf<'about'>>> {
  return done({ version: services.version, platform: services.platform });
}
