// A file that came in by dialog, drop or command line: told apart by its bytes and opened or imported.
import { nextId } from '../document/ids';
import type { Editor } from '../document/editor';
import type { Drawings } from '../pdf/drawings';
import { looksLikeDxf } from '../../shared/readers/looksLikeDxf';
import type { PageFacts } from '../../shared/worker/reading';
import type { JobPage } from '../../core/job/schema';

export function kindOfFile(bytes: Uint8Array): 'job' | 'pdf' | 'dxf' | 'other' {
  const start = String.fromCharCode(...bytes.subarray(0, 1024));
  if (start.startsWith('PK')) return 'job';
  if (start.includes('%PDF-')) return 'pdf';
  return looksLikeDxf(bytes) ? 'dxf' : 'other';
}

export interface PlanImport {
  readonly editor: Editor;
  readonly drawings: Drawings;
  choosePages(choice: PageChoice): Promise<readonly number[]>;
}

export interface PageChoice {
  readonly name: string;
  readonly count: number;
  describe(pages: readonly number[]): Promise<readonly PageFacts[]>;
}

/** Adds the chosen pages to the job. Returns the first page's id, null where the person chose none, or why not. */
export async function importPlan(
  { editor, drawings, choosePages }: PlanImport,
  name: string,
  bytes: Uint8Array,
): Promise<{ readonly page: string | null } | { readonly fault: string }> {
  const sha256 = await hashOf(bytes);
  const file = { name, sha256, bytes };
  const inspected = await drawings.inspect(file);
  if (inspected === null) return { page: null };
  if ('fault' in inspected) return inspected;
  const count = inspected.pages;
  const describe = (pages: readonly number[]) => drawings.describe(file, pages);
  const numbers = count === 1 ? [1] : await choosePages({ name, count, describe });
  if (numbers.length === 0) return { page: null };
  const facts = await describe(numbers);
  const { settled: job } = editor.state.get();
  const known = Object.values(job.drawings).find((drawing) => drawing.sha256 === sha256);
  const drawing = known ?? {
    id: nextId(job, 'd'),
    name,
    kind: kindOfFile(bytes) === 'dxf' ? ('dxf' as const) : ('pdf' as const),
    sha256,
    bytes: bytes.length,
    pageCount: count,
  };
  const bare = name.replace(/\.(pdf|dxf)$/i, '');
  const first = Number(nextId(job, 'p').slice(1));
  const pages = facts.map(({ number, width, height, name: says }, k): JobPage => {
    const called = says ?? (count === 1 ? bare : `${bare}, page ${number}`);
    return {
      id: `p${first + k}`,
      drawing: drawing.id,
      number,
      name: called,
      width,
      height,
      scale: null,
      checks: [],
    };
  });
  if (pages.length === 0)
    return {
      fault: `${name}: its pages cannot be read. Open it in a PDF viewer, save it anew and import that.`,
    };
  editor.addBytes(sha256, bytes);
  const refusal = editor.run({ kind: 'addDrawing', drawing, pages }, `Import ${bare}`);
  if (refusal !== null) return { fault: refusal };
  return { page: pages[0]?.id ?? null };
}

async function hashOf(bytes: Uint8Array): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
