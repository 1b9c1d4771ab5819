// Adds whole lines to the autosave journal; answered once they are on disk.
import { z } from 'zod';
import { channel, MOST_TEXT, nothing } from './channel';

export const appendJournalChannel = channel(
  'appendJournal',
  z
    .string()
    .min(1)
    .max(MOST_TEXT)
    .refine((text) => text.endsWith('\n'), 'journal lines end with a line feed'),
  nothing,
);
