// The file that the program was started with: named by a person, the last job, or the demo.
import { channel, nothing, openedFileSchema } from './channel';

export const startFileChannel = channel('startFile', nothing, openedFileSchema.nullable());
