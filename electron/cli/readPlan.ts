// One page of a plan, read in a child process with a limit on time and on memory.
import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Linework } from '../../core/plan/types';
import { failed, type Outcome } from '../../shared/errors/failure';

export interface PlanRequest {
  readonly bytes: Uint8Array;
  readonly page: number;
  readonly name: string;
  readonly password?: string;
  /** Bytes of memory of the whole process. */
  readonly mostMemory: number;
}

export type PlanReply = Outcome<Linework>;

const MOST_MEMORY = 1536 * 1024 * 1024;

export function readPlan(plan: Omit<PlanRequest, 'mostMemory'>, seconds: number): Promise<PlanReply> {
  const child = fork(fileURLToPath(new URL('./pdfChild.mjs', import.meta.url)), [], {
    execArgv: ['--max-old-space-size=1024'],
    serialization: 'advanced',
    // What the PDF library has to say of broken files is not for the person.
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  });
  return new Promise((settle) => {
    const end = (reply: PlanReply): void => {
      clearTimeout(limit);
      child.removeAllListeners();
      child.kill('SIGKILL');
      settle(reply);
    };
    const limit = setTimeout(() => end(tooSlow(plan.name, seconds)), seconds * 1000);
    child.once('message', (reply: PlanReply) => end(reply));
    child.once('error', () => end(tooBig(plan.name)));
    child.once('exit', () => end(tooBig(plan.name)));
    child.send({ ...plan, mostMemory: MOST_MEMORY } satisfies PlanRequest, (error) => {
      if (error) end(tooBig(plan.name));
    });
  });
}

function tooSlow(name: string, seconds: number): PlanReply {
  return failed(
    'hostile',
    name,
    `reading it takes more than ${seconds} s`,
    'Save the page you need as a PDF of its own; or allow more with --seconds, if you trust the file',
  );
}

function tooBig(name: string): PlanReply {
  return failed(
    'hostile',
    name,
    'reading it takes more memory than a plan should, and was stopped',
    'Save the page you need as a PDF of its own',
  );
}
