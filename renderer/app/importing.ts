// A file that came in by dialog, drop or command line: told apart by its bytes and opened or imported.
import { nextId } from '../document/ids';
import type { Editor } from '../document/editor';
import type { PdfDocuments } from '../pdf/documents';
import type { JobPage } from '../../core/job/schema';

export function kindOfFile(bytes: Uint8Array): 'job' | 'plan' | 'other' {
  const start = String.fromCharCode(...bytes.subarray(0, 1024));
  if (start.startsWith('PK')) return 'job';
  return start.includes('%PDF-') ? 'plan' : 'other';
}

export interface PlanImport {
  readonly editor: Editor;
  readonly documents: PdfDocuments;
  choosePages(
    name: string,
    pages: readonly { readonly width: number; readonly height: number }[],
  ): Promise<readonly number[]>;
}

/** Adds the chosen pages to the job. Returns the first page's id, null where the person chose none, or why not. */
export async function importPlan(
  { editor, documents, choosePages }: PlanImport,
  name: string,
  bytes: Uint8Array,
): Promise<{ readonly page: string | null } | { readonly fault: string }> {
  const sha256 = await hashOf(bytes);
  const inspected = await documents.inspect(name, sha256, bytes);
  if ('fault' in inspected) return inspected;
  const numbers = inspected.pages.length === 1 ? [1] : await choosePages(name, inspected.pages);
  if (numbers.length === 0) return { page: null };
  const { settled: job } = editor.state.get();
  const known = Object.values(job.drawings).find((drawing) => drawing.sha256 === sha256);
  const drawing = known ?? {
    id: nextId(job, 'd'),
    name,
    kind: 'pdf' as const,
    sha256,
    bytes: bytes.length,
    pageCount: inspected.pages.length,
  };
  const bare = name.replace(/\.pdf$/i, '');
  const first = Number(nextId(job, 'p').slice(1));
  const pages = numbers.flatMap((number, k): readonly JobPage[] => {
    const size = inspected.pages[number - 1];
    if (!size) return [];
    const called = inspected.pages.length === 1 ? bare : `${bare}, page ${number}`;
    return [
      { id: `p${first + k}`, drawing: drawing.id, number, name: called, ...size, scale: null, checks: [] },
    ];
  });
  editor.addBytes(sha256, bytes);
  const refusal = editor.run({ kind: 'addDrawing', drawing, pages }, `Import ${bare}`);
  if (refusal !== null) return { fault: refusal };
  return { page: pages[0]?.id ?? null };
}

async function hashOf(bytes: Uint8Array): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
