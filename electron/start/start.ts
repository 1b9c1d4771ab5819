// `npm start`: the desktop window where there is one to be had, else the same window in a browser. Says in one
// sentence what is missing and what still works.
import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { fileAmong } from '../files/startFiles';
import { findElectron } from './findElectron';
import { runInBrowser } from './runInBrowser';
import { runOnDesktop } from './runOnDesktop';

const USAGE = `usage: npm start -- [FILE.lapjob | FILE.pdf] [--browser]

  FILE       opens this job or plan; without it the job worked on last, or the demo
  --browser  shows the window in your browser instead of a desktop window
`;

const projectRoot = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
process.exitCode = await start(process.argv.slice(2));

async function start(words: readonly string[]): Promise<number> {
  if (words.includes('--help')) {
    process.stdout.write(USAGE);
    return 0;
  }
  const odd = words.find((word) => word.startsWith('-') && word !== '--browser');
  const given = words.filter((word) => !word.startsWith('-'));
  if (odd || given.length > 1) return wrong(`${odd ?? given[1]}: this is not an option here. ${USAGE}`);
  const [word] = given;
  const file = word === undefined ? null : resolve(word);
  if (word !== undefined && file !== null) {
    if (fileAmong([file]) === null)
      return wrong(`${word}: only .lapjob and .pdf files open. Name one of those.`);
    if (!existsSync(file)) return wrong(`${word}: there is no such file. Check the name.`);
  }
  if (words.includes('--browser')) return runInBrowser(projectRoot, file, null);

  const electron = await findElectron(projectRoot);
  if ('missing' in electron) return runInBrowser(projectRoot, file, electron.missing);
  const run = await runOnDesktop(electron.binary, projectRoot, file);
  return 'missing' in run ? runInBrowser(projectRoot, file, run.missing) : run.status;
}

function wrong(sentence: string): number {
  process.stderr.write(`lapstrake: ${sentence}\n`);
  return 2;
}
