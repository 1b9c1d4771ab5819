// The autosave journal as it stands on disk; null where there is none.
import { z } from 'zod';
import { channel, MOST_TEXT, nothing } from './channel';

export const readJournalChannel = channel('readJournal', nothing, z.string().max(MOST_TEXT).nullable());
