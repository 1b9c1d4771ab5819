// The window in a browser, over the loopback host, until Ctrl+C.
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { dataFolder } from '../files/dataFolder';
import { openServices } from '../handlers/openServices';
import { startHost } from '../host/host';

declare const __VERSION__: string;

export async function runInBrowser(
  projectRoot: string,
  file: string | null,
  missing: string | null,
): Promise<number> {
  const services = await openServices({
    version: __VERSION__,
    platform: `${process.platform} ${process.arch}, in a browser`,
    dataFolder: dataFolder(process.env),
    projectRoot,
    named: file,
    dialogs: null,
    documentState: () => undefined,
    mistake: (where, error) => void process.stderr.write(`lapstrake: ${where}: ${String(error)}\n`),
  });
  const host = await startHost(join(projectRoot, 'dist', 'renderer'), services);
  if (missing) {
    process.stdout.write(
      `No desktop window, because ${missing}. Everything works in a browser instead, except that plans are picked and new files saved through the browser.\n`,
    );
  }
  process.stdout.write(
    `Lapstrake is at ${host.address}\nThe address works once, on this machine only. Ctrl+C ends the program.\n`,
  );
  openBrowser(host.address);
  await new Promise<void>((resolve) => {
    process.once('SIGINT', resolve);
    process.once('SIGTERM', resolve);
  });
  await host.close();
  // What the page had unsaved when the host ended is only in the journal.
  services.journal.release('keep');
  return 0;
}

// A convenience only: the address stands in the terminal as well.
function openBrowser(address: string): void {
  const { env, platform } = process;
  if (env.LAPSTRAKE_OPEN === 'no') return;
  const words =
    platform === 'darwin'
      ? ['open', address]
      : platform === 'win32'
        ? ['rundll32', 'url.dll,FileProtocolHandler', address]
        : env.DISPLAY || env.WAYLAND_DISPLAY
          ? ['xdg-open', address]
          : isWsl()
            ? ['wslview', address]
            : null;
  if (!words) return;
  const [command = '', ...rest] = words;
  spawn(command, rest, { stdio: 'ignore', detached: true })
    .once('error', () => undefined)
    .unref();
}

function isWsl(): boolean {
  try {
    return /microsoft/i.test(readFileSync('/proc/version', 'utf8'));
  } catch {
    return false;
  }
}
