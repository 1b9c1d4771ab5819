// Which version is running, and on what.
import { z } from 'zod';
import { channel, nothing } from './channel';

export const aboutChannel = channel(
  'about',
  nothing,
  z.strictObject({ version: z.string(), platform: z.string() }),
);
