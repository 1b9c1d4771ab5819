// Starts Electron on the built program and waits for its end. A start that fails at once is no reason to end:
// the reason is handed back, and the browser takes over.
import { spawn } from 'node:child_process';

/** An end with an error within this time is a start that failed. */
const START_TAKES_MS = 20_000;

export type Run = { readonly status: number } | { readonly missing: string };

export function runOnDesktop(binary: string, projectRoot: string, file: string | null): Promise<Run> {
  const asRoot = process.platform === 'linux' && process.getuid?.() === 0;
  if (asRoot) {
    process.stderr.write(
      'lapstrake: running as root, so Chromium starts without its own sandbox; start it as another user to have it.\n',
    );
  }
  const words = [...(asRoot ? ['--no-sandbox'] : []), projectRoot, ...(file === null ? [] : [file])];
  const began = Date.now();
  return new Promise((settle) => {
    const child = spawn(binary, words, { stdio: ['ignore', 'inherit', 'pipe'] });
    let last = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      last = (last + text).slice(-4000);
      process.stderr.write(withoutChatter(text));
    });
    const stop = (): void => void child.kill();
    process.once('SIGINT', stop);
    process.once('SIGTERM', stop);
    child.once('error', (error) => settle({ missing: `Electron does not start here (${error.message})` }));
    child.once('exit', (status, signal) => {
      const failedAtOnce = Date.now() - began < START_TAKES_MS && signal !== 'SIGINT' && signal !== 'SIGTERM';
      if (status === 0 || !failedAtOnce) settle({ status: status ?? 0 });
      else settle({ missing: `Electron does not start here (${reasonIn(last)})` });
    });
  });
}

// Chromium tells of every bus and driver it does not find; none of it concerns the person.
function withoutChatter(text: string): string {
  return text
    .split(/(?<=\n)/)
    .filter((line) => !/^\[\d+:[\d/.:]+(ERROR|WARNING|INFO|VERBOSE\d*):/.test(line))
    .join('');
}

function reasonIn(output: string): string {
  const library = /(\S+): cannot open shared object file/.exec(output)?.[1];
  if (library) return `the library ${library.replace(/:$/, '')} is missing`;
  if (/SUID sandbox|No usable sandbox/i.test(output)) return "the system does not allow Chromium's sandbox";
  if (/Missing X server|cannot open display|ozone_platform/i.test(output))
    return 'the display cannot be opened';
  return 'it ended at once';
}
