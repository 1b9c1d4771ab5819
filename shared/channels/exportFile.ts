// Writes one document where a person says. Desktop only: in a browser the page downloads it.
import { z } from 'zod';
import { bytesSchema, channel, fileNameSchema } from './channel';

export const exportFileChannel = channel(
  'exportFile',
  z.strictObject({ name: fileNameSchema, bytes: bytesSchema }),
  z.boolean(),
);
