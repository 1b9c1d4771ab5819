// What a page of the job is read from, and what tells one picture of it from another.
import type { Correction } from '../../core/plan/correction';
import type { Job, JobPage } from '../../core/job/schema';
import type { DocumentState } from './editor';

/** The drawing's bytes, the page's number, and how it is set right. Null for a page without a drawing. */
export function pageKey(job: Pick<Job, 'drawings'>, page: JobPage | undefined): string | null {
  const drawing = page && page.drawing !== null ? job.drawings[page.drawing] : undefined;
  if (!page || !drawing) return null;
  const { correction } = page;
  const set = correction ? `/${correction.degrees}/${correction.stretch}` : '';
  return `${drawing.sha256}/${page.number}${set}`;
}

export interface PageSource {
  readonly key: string;
  readonly file: { readonly name: string; readonly sha256: string; readonly bytes: Uint8Array };
  readonly number: number;
  readonly correction: Correction | null;
}

/** Null where there is no such page, or its drawing's file is not at hand. */
export function pageSource({ job, drawings }: DocumentState, id: string | null): PageSource | null {
  const page = id === null ? undefined : job.pages[id];
  const drawing = page && page.drawing !== null ? job.drawings[page.drawing] : undefined;
  const bytes = drawing && drawings.get(drawing.sha256);
  const key = pageKey(job, page);
  if (!page || !drawing || !bytes || key === null) return null;
  const file = { name: drawing.name, sha256: drawing.sha256, bytes };
  return { key, file, number: page.number, correction: page.correction ?? null };
}
