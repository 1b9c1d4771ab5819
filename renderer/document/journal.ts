// The autosave journal: the job as last saved and every entry, undo and redo since, one JSON line each.
// Replaying it gives the same job with the same history, so a crash loses neither.
import { packJob, unpackJob } from '../../core/job/container';
import type { Command } from '../../core/job/commands/types';
import { createEditor } from './editor';
import type { Editor, OpenJob } from './editor';

export type JournalLine =
  | { readonly kind: 'base'; readonly open: OpenJob }
  | { readonly kind: 'drawing'; readonly sha256: string; readonly bytes: Uint8Array }
  | { readonly kind: 'entry'; readonly label: string; readonly commands: readonly Command[] }
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' };

export interface Recovered {
  readonly editor: Editor;
  readonly base: OpenJob;
  /** Entries, undos and redos after the last save. */
  readonly changes: number;
  /** Lines at the end that could not be read: a line torn by the crash. */
  readonly torn: number;
}

/** One line of the journal file, with its line end. */
export function writeJournalLine(line: JournalLine): string {
  return JSON.stringify(written(line)) + '\n';
}

function written(line: JournalLine): unknown {
  if (line.kind === 'base') {
    const { job, drawings, name, target } = line.open;
    return { kind: 'base', name, target, container: toBase64(packJob(job, drawings)) };
  }
  if (line.kind === 'drawing') return { ...line, bytes: toBase64(line.bytes) };
  return line;
}

/** The editor as it stood when the journal ends; null where nothing in it can be read. Reading stops at the
 * first line that does not parse or apply: what stands before it is whole. */
export function replayJournal(text: string, journal: (line: JournalLine) => void): Recovered | null {
  const lines = text.split('\n').filter((line) => line !== '');
  let editor: Editor | null = null;
  let base: OpenJob | null = null;
  let changes = 0;
  let recording = false;
  let read = 0;
  for (const line of lines) {
    const parsed = parseLine(line);
    if (!parsed) break;
    if (parsed.kind === 'base') {
      base = parsed.open;
      editor = createEditor(base, (one) => recording && journal(one));
      changes = 0;
    } else if (!editor || !applyLine(editor, parsed)) {
      break;
    } else if (parsed.kind !== 'drawing') {
      changes++;
    }
    read++;
  }
  recording = true;
  return editor && base ? { editor, base, changes, torn: lines.length - read } : null;
}

function applyLine(editor: Editor, line: JournalLine): boolean {
  if (line.kind === 'drawing') editor.addBytes(line.sha256, line.bytes);
  if (line.kind === 'entry') return editor.run(line.commands, line.label) === null;
  if (line.kind === 'undo') return editor.undo() !== null;
  if (line.kind === 'redo') return editor.redo() !== null;
  return true;
}

function parseLine(text: string): JournalLine | null {
  const line = parseJson(text);
  if (!isRecord(line)) return null;
  if (line.kind === 'base' && typeof line.container === 'string' && typeof line.name === 'string') {
    const bytes = fromBase64(line.container);
    const unpacked = bytes && unpackJob(bytes);
    if (!unpacked || 'refusal' in unpacked) return null;
    const target = typeof line.target === 'string' ? line.target : null;
    return { kind: 'base', open: { ...unpacked, name: line.name, target } };
  }
  if (line.kind === 'drawing' && typeof line.sha256 === 'string' && typeof line.bytes === 'string') {
    const bytes = fromBase64(line.bytes);
    return bytes && { kind: 'drawing', sha256: line.sha256, bytes };
  }
  if (line.kind === 'entry' && typeof line.label === 'string' && Array.isArray(line.commands)) {
    return { kind: 'entry', label: line.label, commands: line.commands as readonly Command[] };
  }
  if (line.kind === 'undo' || line.kind === 'redo') return { kind: line.kind };
  return null;
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

function toBase64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let k = 0; k < bytes.length; k += 0x8000) {
    parts.push(String.fromCharCode(...bytes.subarray(k, k + 0x8000)));
  }
  return btoa(parts.join(''));
}

function fromBase64(text: string): Uint8Array | null {
  try {
    return Uint8Array.from(atob(text), (char) => char.charCodeAt(0));
  } catch {
    return null;
  }
}
