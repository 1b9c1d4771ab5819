// A place to write to, with the extension that belongs there even where the system's dialog does not add it.
import { access } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import { done, failed, type Outcome } from '../../shared/errors/failure';
import type { Dialogs } from './services';

export async function choosePlace(dialogs: Dialogs, suggestedName: string): Promise<Outcome<string | null>> {
  const chosen = await dialogs.choosePlace(suggestedName);
  const extension = extname(suggestedName);
  if (chosen === null || extname(chosen).toLowerCase() === extension.toLowerCase()) return done(chosen);
  const path = chosen + extension;
  const taken = await access(path).then(
    () => true,
    () => false,
  );
  // The dialog asked about overwriting `chosen`, not about this one.
  return taken
    ? failed(
        'not-writable',
        basename(path),
        'a file of this name is there already',
        'Choose it by its whole name',
      )
    : done(path);
}
