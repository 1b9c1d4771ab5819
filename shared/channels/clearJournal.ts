// Forgets the autosave journal: the work is saved, or a person gave it up.
import { channel, nothing } from './channel';

export const clearJournalChannel = channel('clearJournal', nothing, nothing);
