// A job file from a path or standard input.
import { unpackJob, type Drawings } from '../../core/job/container';
import type { Job } from '../../core/job/schema';
import { done, type Outcome } from '../../shared/errors/failure';
import { refusedWith } from './faultWords';
import { nameOf, readInput } from './input';

export interface JobFile {
  readonly job: Job;
  readonly drawings: Drawings;
}

export async function readJobFile(input: string): Promise<Outcome<JobFile>> {
  const bytes = await readInput(input);
  return bytes.ok ? unpacked(nameOf(input), bytes.value) : bytes;
}

export function unpacked(where: string, bytes: Uint8Array): Outcome<JobFile> {
  const unpacked = unpackJob(bytes);
  return 'refusal' in unpacked ? refusedWith(where, unpacked.refusal) : done(unpacked);
}
