// Reads a file of the recent list again.
import { channel, openedFileSchema, targetSchema } from './channel';

export const openRecentChannel = channel('openRecent', targetSchema, openedFileSchema);
