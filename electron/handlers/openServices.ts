// The services of one running program, on the desktop or behind the loopback host.
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { forgetfulJournal, openJournal } from '../files/journal';
import { openPlaces } from '../files/places';
import { demoJob } from '../files/startFiles';
import type { Services, StartFile } from './services';

export interface Surroundings extends Pick<
  Services,
  'version' | 'platform' | 'dialogs' | 'documentState' | 'mistake'
> {
  readonly dataFolder: string;
  readonly projectRoot: string;
  /** The file a person named, or null. */
  readonly named: string | null;
}

export async function openServices(surroundings: Surroundings): Promise<Services> {
  const { dataFolder, projectRoot, named, ...rest } = surroundings;
  await mkdir(dataFolder, { recursive: true }).catch((error: unknown) => rest.mistake(dataFolder, error));
  const journal = await openJournal(dataFolder);
  if (!journal.ok) rest.mistake(dataFolder, journal.failure);
  const places = await openPlaces(dataFolder);
  return {
    ...rest,
    places,
    journal: journal.ok ? journal.value : forgetfulJournal(),
    settingsFile: join(dataFolder, 'settings.json'),
    startFile: async (): Promise<StartFile | null> => {
      if (named !== null) return { path: named, from: 'named' };
      const [last] = await places.recent();
      const lastPath = last && places.pathOf(last.target);
      if (lastPath) return { path: lastPath, from: 'last' };
      const demo = await demoJob(projectRoot);
      return demo === null ? null : { path: demo, from: 'demo' };
    },
  };
}
