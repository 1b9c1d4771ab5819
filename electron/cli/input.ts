// Reads what a verb was given: a file, or standard input.
import { done, failed, type Outcome } from '../../shared/errors/failure';
import type { z } from 'zod';
import { MOST_FILE_BYTES, readWithin } from '../files/readWithin';
import { faultIn } from './issueWords';

export async function readInput(input: string): Promise<Outcome<Uint8Array>> {
  return input === '-' ? readStandardInput() : readWithin(input, MOST_FILE_BYTES, input);
}

/** How the input is called in a refusal. */
export function nameOf(input: string): string {
  return input === '-' ? 'standard input' : input;
}

export async function readJsonInput<T>(input: string, schema: z.ZodType<T>): Promise<Outcome<T>> {
  const bytes = await readInput(input);
  return bytes.ok ? parseJson(nameOf(input), bytes.value, schema) : bytes;
}

export function parseJson<T>(where: string, bytes: Uint8Array, schema: z.ZodType<T>): Outcome<T> {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes).replace(/^\uFEFF/, ''));
  } catch (error) {
    const why =
      error instanceof SyntaxError ? `it is not JSON (${error.message})` : 'it is not text in UTF-8';
    return failed('damaged', where, why, 'Give a JSON document');
  }
  const parsed = schema.safeParse(value);
  return parsed.success ? done(parsed.data) : faultIn(where, parsed.error);
}

async function readStandardInput(): Promise<Outcome<Uint8Array>> {
  const parts: Buffer[] = [];
  let length = 0;
  for await (const part of process.stdin as AsyncIterable<Buffer>) {
    length += part.byteLength;
    if (length > MOST_FILE_BYTES)
      return failed('too-large', 'standard input', 'it is larger than 256 MiB', 'Give a smaller input');
    parts.push(part);
  }
  return done(new Uint8Array(Buffer.concat(parts)));
}
