// Where the program keeps what belongs to the person and not to a job. LAPSTRAKE_DATA moves it.
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';

export function dataFolder(environment: Readonly<Record<string, string | undefined>>): string {
  if (environment.LAPSTRAKE_DATA) return resolve(environment.LAPSTRAKE_DATA);
  return join(settingsRoot(environment), 'Lapstrake');
}

// The same places that Electron takes for `userData`, so that the desktop and the browser share one folder.
function settingsRoot(environment: Readonly<Record<string, string | undefined>>): string {
  if (process.platform === 'win32') return environment.APPDATA ?? join(homedir(), 'AppData', 'Roaming');
  if (process.platform === 'darwin') return join(homedir(), 'Library', 'Application Support');
  return environment.XDG_CONFIG_HOME ?? join(homedir(), '.config');
}
