// What tells one picture of a page from another: the drawing's bytes, the page's number, and how it is set right.
import type { Job, JobPage } from '../../core/job/schema';

/** Null for a page without a drawing. */
export function pageKey(job: Pick<Job, 'drawings'>, page: JobPage | undefined): string | null {
  const drawing = page && page.drawing !== null ? job.drawings[page.drawing] : undefined;
  if (!page || !drawing) return null;
  const { correction } = page;
  const set = correction ? `/${correction.degrees}/${correction.stretch}` : '';
  return `${drawing.sha256}/${page.number}${set}`;
}
