// Saves a job over the place it came from, or asks for one. Null: a person thought better of it.
// In a browser the host takes only a target it gave out; with `target: null` the page downloads the file itself.
import { z } from 'zod';
import { bytesSchema, channel, fileNameSchema, targetSchema } from './channel';

export const saveJobChannel = channel(
  'saveJob',
  z.strictObject({ name: fileNameSchema, bytes: bytesSchema, target: targetSchema.nullable() }),
  z.strictObject({ name: fileNameSchema, target: targetSchema.nullable() }).nullable(),
);
