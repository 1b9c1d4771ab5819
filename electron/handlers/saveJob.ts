// Saves a job over its place or where a person says, and remembers the place.
import { basename } from 'node:path';
import type { ReplyOf, RequestOf } from '../../shared/channels/channels';
import { done, failed, type Outcome } from '../../shared/errors/failure';
import { saveAtomically } from '../files/saveAtomically';
import { choosePlace } from './choosePlace';
import type { Services } from './services';

export async function answerSaveJob(
  job: RequestOf<'saveJob'>,
  services: Services,
): Promise<Outcome<ReplyOf<'saveJob'>>> {
  const place = await placeFor(job, services);
  if (!place.ok) return place;
  if (place.value === null) return done(null);
  const saved = await saveAtomically(place.value, job.bytes, { versions: 'keep' });
  if (!saved.ok) return saved;
  await services.places.remember(place.value);
  return done({ name: basename(place.value), target: services.places.wordFor(place.value) });
}

async function placeFor(
  { name, target }: RequestOf<'saveJob'>,
  { dialogs, places }: Services,
): Promise<Outcome<string | null>> {
  if (target !== null) {
    const path = places.pathOf(target);
    return path === null
      ? failed('unknown-target', name, 'the place it came from is not known any more', 'Save it under a name')
      : done(path);
  }
  return dialogs
    ? choosePlace(dialogs, name)
    : failed('not-allowed', name, 'no dialog can be shown from here', 'Download the job instead');
}
