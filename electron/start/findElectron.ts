// Electron's binary: the one named by ELECTRON_OVERRIDE_DIST_PATH, the one in place, or fetched once. The fetch
// is limited in time and its failure is a sentence, because a closed network must not keep the window away.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';

const REACHABLE_WITHIN_MS = 6_000;
const FETCHED_WITHIN_MS = 5 * 60_000;
const DOWNLOAD_HOST = 'github.com';

export type Found = { readonly binary: string } | { readonly missing: string };

export async function findElectron(projectRoot: string): Promise<Found> {
  const { env, platform } = process;
  if (platform === 'linux' && !env.DISPLAY && !env.WAYLAND_DISPLAY) {
    return { missing: 'there is no display' };
  }
  const name =
    platform === 'darwin'
      ? 'Electron.app/Contents/MacOS/Electron'
      : platform === 'win32'
        ? 'electron.exe'
        : 'electron';
  if (env.ELECTRON_OVERRIDE_DIST_PATH) {
    const binary = join(env.ELECTRON_OVERRIDE_DIST_PATH, name);
    return existsSync(binary)
      ? { binary }
      : { missing: 'ELECTRON_OVERRIDE_DIST_PATH names a folder without Electron in it' };
  }
  const module = join(projectRoot, 'node_modules', 'electron');
  if (!existsSync(join(module, 'install.js'))) {
    return { missing: "Electron's package is not installed (npm ci does that)" };
  }
  const binary = join(module, 'dist', name);
  if (!isWhole(module, binary) && !(await fetched(module))) {
    return { missing: "Electron's binary is not on this machine and could not be fetched" };
  }
  return isWhole(module, binary) ? { binary } : { missing: "Electron's binary did not arrive whole" };
}

// path.txt is written last, so that a fetch that was cut short does not count.
function isWhole(module: string, binary: string): boolean {
  return (
    existsSync(binary) &&
    existsSync(join(module, 'path.txt')) &&
    readFileSync(join(module, 'path.txt'), 'utf8') !== ''
  );
}

async function fetched(module: string): Promise<boolean> {
  const { env } = process;
  const goesElsewhere = [
    env.ELECTRON_MIRROR,
    env.npm_config_electron_mirror,
    env.HTTPS_PROXY,
    env.https_proxy,
  ].some(Boolean);
  if (!goesElsewhere && !(await isReachable(DOWNLOAD_HOST))) return false;
  process.stderr.write('Fetching Electron (about 110 MB, once) …\n');
  return new Promise((settle) => {
    const child = spawn(process.execPath, [join(module, 'install.js')], { stdio: 'ignore' });
    const limit = setTimeout(() => child.kill(), FETCHED_WITHIN_MS);
    const end = (ok: boolean): void => {
      clearTimeout(limit);
      settle(ok);
    };
    child.once('error', () => end(false));
    child.once('exit', (status) => end(status === 0));
  });
}

function isReachable(host: string): Promise<boolean> {
  return new Promise((settle) => {
    const socket = connect({ host, port: 443 });
    const end = (ok: boolean): void => {
      socket.destroy();
      settle(ok);
    };
    socket.setTimeout(REACHABLE_WITHIN_MS, () => end(false));
    socket.once('connect', () => end(true));
    socket.once('error', () => end(false));
    // Looking up the name has a time limit of its own in the system, which can be long.
    setTimeout(() => end(false), REACHABLE_WITHIN_MS).unref();
  });
}
