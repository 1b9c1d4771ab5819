// In: a job and its drawings. Out: the bytes of a .lapjob (one ZIP: job.json and drawings/<sha256>.<kind>), and back.
// Promise: the same job gives the same bytes; whatever bytes come in, a job or a refusal in words comes out.
import { unzipSync, zipSync, strFromU8, strToU8, type Zippable } from 'fflate';
import { migrate } from './migrate';
import { JOB_FORMAT, JOB_VERSION, jobSchema, type Job } from './schema';

export type Drawings = ReadonlyMap<string, Uint8Array>;
export type Unpacked = { readonly job: Job; readonly drawings: Drawings } | { readonly refusal: string };

/** More than any real set of drawings; beyond it a file is refused before it fills the memory. */
const MOST_BYTES = 1_000_000_000;
const MOST_JOB_BYTES = 200_000_000;

/** A ZIP stores local time: a fixed local time, written without a zone, gives the same bytes in every zone. */
const FIXED_TIME = '1980-01-02T00:00:00';

export function packJob(job: Job, drawings: Drawings): Uint8Array {
  const files: Zippable = {
    'job.json': [strToU8(JSON.stringify(job, null, 1)), { level: 6, mtime: FIXED_TIME }],
  };
  for (const drawing of [...Object.values(job.drawings)].sort((a, b) => (a.sha256 < b.sha256 ? -1 : 1))) {
    const bytes = drawings.get(drawing.sha256);
    if (!bytes) throw new Error(`the drawing ${drawing.name} was not handed over`);
    files[`drawings/${drawing.sha256}.${drawing.kind}`] = [bytes, { level: 0, mtime: FIXED_TIME }];
  }
  return zipSync(files);
}

export function unpackJob(bytes: Uint8Array): Unpacked {
  const refuse = (what: string, todo: string) => ({ refusal: `${what}. ${todo}.` });
  if (bytes.length === 0) return refuse('The file is empty', 'Open an earlier version of it');
  if (!(bytes[0] === 0x50 && bytes[1] === 0x4b))
    return refuse(
      'This is not a job file',
      'Open a file saved by Lapstrake, its name ends in .lapjob; import a PDF on the Plan stage',
    );
  let files: Record<string, Uint8Array>;
  let total = 0;
  try {
    files = unzipSync(bytes, {
      filter: (entry) => {
        total += entry.originalSize;
        if (total > MOST_BYTES || (entry.name === 'job.json' && entry.originalSize > MOST_JOB_BYTES))
          throw new Error('too large');
        return entry.name === 'job.json' || /^drawings\/[0-9a-f]{64}\.pdf$/.test(entry.name);
      },
    });
  } catch (error) {
    if (error instanceof Error && error.message === 'too large')
      return refuse(
        'The job file unpacks to more than 1 GB',
        'It is damaged or not a job; open an earlier version',
      );
    return refuse('The job file is damaged or only half written', 'Open an earlier version of it');
  }
  const text = files['job.json'];
  if (!text)
    return refuse('There is no job in this file (job.json is missing)', 'Open a file saved by Lapstrake');
  const read = readJob(strFromU8(text));
  if ('refusal' in read) return read;
  const drawings = new Map<string, Uint8Array>();
  for (const drawing of Object.values(read.job.drawings)) {
    const found = files[`drawings/${drawing.sha256}.${drawing.kind}`];
    if (!found)
      return refuse(
        `The drawing “${drawing.name}” is missing from the job file`,
        'Open an earlier version of it',
      );
    drawings.set(drawing.sha256, found);
  }
  return { job: read.job, drawings };
}

/** Parses, migrates and checks the text of a job.json. */
export function readJob(text: string): { readonly job: Job } | { readonly refusal: string } {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return {
      refusal:
        'The job in this file cannot be read: it is cut short or was edited. Open an earlier version of it.',
    };
  }
  const head = value as { format?: unknown; version?: unknown } | null;
  if (typeof head !== 'object' || head === null || head.format !== JOB_FORMAT)
    return { refusal: 'This file holds no Lapstrake job. Open a file whose name ends in .lapjob.' };
  if (typeof head.version !== 'number' || !Number.isInteger(head.version) || head.version < 1)
    return { refusal: 'The job in this file says no version of its format. Open an earlier version of it.' };
  if (head.version > JOB_VERSION)
    return {
      refusal: `This job was saved by a newer version of Lapstrake (format ${String(head.version)}, this one reads up to ${JOB_VERSION}). Open it there, or update this program.`,
    };
  const checked = jobSchema.safeParse(migrate({ ...head, version: head.version }));
  if (!checked.success) {
    const issue = checked.error.issues[0];
    return {
      refusal: `The job does not hold together at ${issue?.path.map(String).join('.') || 'its top'}: ${issue?.message ?? 'unknown'}. Open an earlier version of it.`,
    };
  }
  const loose = danglingId(checked.data);
  if (loose) return { refusal: `The job does not hold together: ${loose}. Open an earlier version of it.` };
  return { job: checked.data };
}

/** A reference that leads nowhere; a schema cannot see these. */
function danglingId(job: Job): string | null {
  for (const page of Object.values(job.pages))
    if (page.drawing !== null && !job.drawings[page.drawing])
      return `page ${page.id} names a drawing that is not there`;
  for (const roof of Object.values(job.roofs)) {
    if (!job.pages[roof.page]) return `roof ${roof.id} names a page that is not there`;
    for (const edge of roof.outline)
      if (!job.edges[edge]) return `roof ${roof.id} names an edge that is not there`;
    const { closing } = roof.laying;
    if (closing?.kind === 'narrow' && !job.rates.rolls.some((roll) => roll.id === closing.roll))
      return `roof ${roof.id} closes with a roll that is not among the products`;
  }
  for (const opening of Object.values(job.openings)) {
    if (!job.roofs[opening.roof]) return `opening ${opening.id} names a roof that is not there`;
    for (const edge of opening.ring)
      if (!job.edges[edge]) return `opening ${opening.id} names an edge that is not there`;
  }
  for (const fitting of Object.values(job.fittings))
    if (!job.roofs[fitting.roof]) return `fitting ${fitting.id} names a roof that is not there`;
  if (!job.rates.rolls.some((roll) => roll.id === job.system.roll))
    return `the roll ${job.system.roll} is not among the products`;
  return null;
}
