// What a channel is: a name, the schema of what is asked and the schema of what is answered. Both sides of a
// process boundary parse with these, so neither trusts the other.
import { z } from 'zod';
import { FAILURE_CODES } from '../errors/failure';

export interface Channel<Name extends string, Request extends z.ZodType, Reply extends z.ZodType> {
  readonly name: Name;
  readonly request: Request;
  readonly reply: Reply;
}

export function channel<Name extends string, Request extends z.ZodType, Reply extends z.ZodType>(
  name: Name,
  request: Request,
  reply: Reply,
): Channel<Name, Request, Reply> {
  return { name, request, reply };
}

/** Nothing asked, or nothing to tell beside that it is done. */
export const nothing = z.null();

export const failureSchema = z.strictObject({
  code: z.enum(FAILURE_CODES),
  where: z.string(),
  what: z.string(),
  todo: z.string(),
});

/** Every answer travels in this envelope: the reply, or why there is none. */
export const answerSchema = z.discriminatedUnion('ok', [
  z.strictObject({ ok: z.literal(true), value: z.unknown() }),
  z.strictObject({ ok: z.literal(false), failure: failureSchema }),
]);

/** The largest file that crosses, and the longest text, so that a wrong call cannot fill the memory. */
export const MOST_BYTES = 512 * 1024 * 1024;
export const MOST_TEXT = 64 * 1024 * 1024;

/** By tag and not by `instanceof`, because the two sides of a boundary are different realms. */
export const bytesSchema = z.custom<Uint8Array>(
  (value) =>
    Object.prototype.toString.call(value) === '[object Uint8Array]' &&
    (value as Uint8Array).byteLength <= MOST_BYTES,
  'bytes are a Uint8Array of at most 512 MiB',
);

/** A bare file name: what a person would read, never a path. */
export const fileNameSchema = z
  .string()
  .min(1)
  .max(255)
  .refine((name) => !/[/\\\0]/.test(name) && name !== '.' && name !== '..', 'a file name without a path');

/** The opaque word for a place that this side has shown before. */
export const targetSchema = z.string().regex(/^[0-9a-f]{32}$/);

export const openedFileSchema = z.strictObject({
  name: fileNameSchema,
  bytes: bytesSchema,
  target: targetSchema.nullable(),
});
