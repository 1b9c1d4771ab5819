// Calls the built command line as a script would.
import { spawn } from 'node:child_process';
import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Called {
  readonly status: number | null;
  readonly out: string;
  readonly error: string;
  readonly seconds: number;
}

export const BIN = join('dist', 'cli', 'lapstrake.mjs');

export function call(words: readonly string[], input: string | Uint8Array = ''): Promise<Called> {
  return runNode([BIN, ...words], input);
}

/** Node with any words: what a bare start of it takes is the measure for the program's own. */
export function runNode(words: readonly string[], input: string | Uint8Array = ''): Promise<Called> {
  const began = performance.now();
  return new Promise((resolve) => {
    const child = spawn(process.execPath, words);
    const out: Buffer[] = [];
    const error: Buffer[] = [];
    child.stdout.on('data', (part: Buffer) => out.push(part));
    child.stderr.on('data', (part: Buffer) => error.push(part));
    // A program that refuses early may not read what it is given.
    child.stdin.on('error', () => undefined);
    child.stdin.end(input);
    child.once('close', (status) =>
      resolve({
        status,
        out: Buffer.concat(out).toString(),
        error: Buffer.concat(error).toString(),
        seconds: (performance.now() - began) / 1000,
      }),
    );
  });
}

export function freshFolder(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'lapstrake-cli-'));
}

/** Writes a document beside others and gives its path. */
export async function written(folder: string, name: string, content: unknown): Promise<string> {
  const path = join(folder, name);
  await writeFile(
    path,
    content instanceof Uint8Array || typeof content === 'string' ? content : JSON.stringify(content),
  );
  return path;
}

/** The house form of a refusal: one line, where, what is wrong, what to do. */
export const REFUSAL = /^lapstrake: \S.*: .+\. .+[.!?]\n$/;
