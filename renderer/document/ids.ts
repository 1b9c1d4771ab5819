// Ids for what a person makes, drawn here and passed into commands: short, sayable, and free in this job.
import type { Job } from '../../core/job/schema';

const TABLES = {
  d: 'drawings',
  p: 'pages',
  r: 'roofs',
  o: 'openings',
  e: 'edges',
  f: 'fittings',
} as const;

/** The next `count` free ids such as e12, e13 … */
export function nextIds(job: Job, prefix: keyof typeof TABLES, count: number): readonly string[] {
  const taken = Object.keys(job[TABLES[prefix]])
    .map((id) => (id.startsWith(prefix) ? Number(id.slice(1)) : 0))
    .filter(Number.isInteger);
  const first = Math.max(0, ...taken) + 1;
  return Array.from({ length: count }, (_, k) => `${prefix}${first + k}`);
}

export function nextId(job: Job, prefix: keyof typeof TABLES): string {
  return nextIds(job, prefix, 1)[0] ?? `${prefix}1`;
}

/** Free ids for what is drawn on roofs: lines l1, l2 … and facets w1, w2 … */
export function nextMarkIds(job: Job, prefix: 'l' | 'w', count: number): readonly string[] {
  const taken = Object.values(job.roofs)
    .flatMap((roof): readonly { readonly id: string }[] => (prefix === 'l' ? roof.lines : roof.facets))
    .map(({ id }) => (id.startsWith(prefix) ? Number(id.slice(1)) : 0))
    .filter(Number.isInteger);
  const first = Math.max(0, ...taken) + 1;
  return Array.from({ length: count }, (_, k) => `${prefix}${first + k}`);
}

/** A free id for a region of the job's pages: s1, s2 … */
export function nextRegionId(job: Job): string {
  const taken = Object.values(job.pages)
    .flatMap(({ regions = [] }) => regions)
    .map(({ id }) => (id.startsWith('s') ? Number(id.slice(1)) : 0))
    .filter(Number.isInteger);
  return `s${Math.max(0, ...taken) + 1}`;
}

/** The first letter that no roof bears: A … Z, AA, AB … */
export function nextLetter(job: Job): string {
  const taken = new Set(Object.values(job.roofs).map((roof) => roof.letter));
  for (let n = 0; n < 26 * 27; n++) {
    const letter = n < 26 ? letterAt(n) : letterAt(Math.floor(n / 26) - 1) + letterAt(n % 26);
    if (!taken.has(letter)) return letter;
  }
  throw new Error('more than 702 roofs in one job');
}

const letterAt = (n: number): string => String.fromCharCode(65 + n);
