// The jobs opened or saved last, newest first; files that are gone are left out.
import { z } from 'zod';
import { channel, fileNameSchema, nothing, targetSchema } from './channel';

export const recentFilesChannel = channel(
  'recentFiles',
  nothing,
  z.array(z.strictObject({ name: fileNameSchema, target: targetSchema })),
);
