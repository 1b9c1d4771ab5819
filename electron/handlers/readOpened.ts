// A file on disk as the window takes it. A job can be saved back to its place, a plan cannot.
import { basename } from 'node:path';
import type { OpenedFile } from '../../shared/channels/bridge';
import type { Outcome } from '../../shared/errors/failure';
import { readWithin } from '../files/readWithin';
import { isJobName } from '../files/startFiles';
import type { Places } from '../files/places';

export async function readOpened(
  path: string,
  places: Places,
  save: 'back' | 'elsewhere' = 'back',
): Promise<Outcome<OpenedFile>> {
  const bytes = await readWithin(path);
  if (!bytes.ok) return bytes;
  const name = basename(path);
  const target = save === 'back' && isJobName(name) ? places.wordFor(path) : null;
  if (target) await places.remember(path);
  return { ok: true, value: { name, bytes: bytes.value, target } };
}
