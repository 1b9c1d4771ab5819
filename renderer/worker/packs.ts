// What the three people take away, made beside the window so that it stays free.
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import type { PackName } from '../../shared/worker/messages';

export function makePack(
  name: PackName,
  _job: Job,
  _estimate: Estimate,
  _drawings: ReadonlyMap<string, Uint8Array>,
): Promise<Uint8Array> {
  return Promise.reject(new Error(`${name} cannot be written yet.`));
}
