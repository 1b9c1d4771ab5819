// What the title says, and whether closing would lose work. In a browser the page does this itself
// (document.title and beforeunload), and the host is not asked.
import { z } from 'zod';
import { channel, nothing } from './channel';

export const setDocumentStateChannel = channel(
  'setDocumentState',
  z.strictObject({ name: z.string().max(255), unsaved: z.boolean() }),
  nothing,
);
