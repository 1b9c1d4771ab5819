// Writes one document where a person says.
import { done, failed, type Outcome } from '../../shared/errors/failure';
import type { RequestOf } from '../../shared/channels/channels';
import { saveAtomically } from '../files/saveAtomically';
import { choosePlace } from './choosePlace';
import type { Services } from './services';

export async function answerExportFile(
  file: RequestOf<'exportFile'>,
  { dialogs }: Services,
): Promise<Outcome<boolean>> {
  if (!dialogs) {
    return failed('not-allowed', file.name, 'no dialog can be shown from here', 'Download the file instead');
  }
  const place = await choosePlace(dialogs, file.name);
  if (!place.ok) return place;
  if (place.value === null) return done(false);
  const saved = await saveAtomically(place.value, file.bytes, { versions: 'none' });
  return saved.ok ? done(true) : saved;
}
