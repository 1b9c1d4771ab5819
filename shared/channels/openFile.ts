// Asks a person for a file. Desktop only: in a browser the page's own picker does it.
import { z } from 'zod';
import { channel, openedFileSchema } from './channel';

export const openFileChannel = channel('openFile', z.enum(['job', 'plan']), openedFileSchema.nullable());
