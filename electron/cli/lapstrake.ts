// The command line: `lapstrake VERB INPUT [--option value]`. One JSON document on standard output; refusals are
// one line on standard error. Exit status: 0 done, 2 wrong usage, 3 input refused, 4 done but an error stands.
import { sentenceOf } from '../../shared/errors/failure';
import { printed } from './print';
import { verbTable } from './verbTable';
import { readWords, type Words } from './words';

process.exitCode = await main(process.argv.slice(2));

async function main(given: readonly string[]): Promise<number> {
  const debug = given.includes('--debug');
  if (debug) process.setSourceMapsEnabled(true);
  const [name, ...rest] = given.filter((word) => word !== '--debug');
  const load = name === undefined || name === '--help' ? verbTable.help : verbTable[name];
  if (!load) {
    return complain(`${name}: there is no such verb. Verbs are ${Object.keys(verbTable).join(', ')}.`, 2);
  }
  try {
    const { spec, run } = await load();
    const words = readWords(spec, rest);
    if ('fault' in words) return complain(`${spec.name}: ${words.fault}`, 2);
    return await answer(spec.name, run, words);
  } catch (error) {
    if (debug && error instanceof Error) process.stderr.write(`${error.stack ?? error.message}\n`);
    const what = error instanceof Error ? error.message : String(error);
    return complain(
      `${name ?? 'help'}: the program made a mistake (${what}). Run it again with --debug and report what it prints.`,
      1,
    );
  }
}

async function answer(
  name: string,
  run: (words: Words) => Promise<RunOutcome>,
  words: Words,
): Promise<number> {
  const outcome = await run(words);
  if ('usage' in outcome) return complain(`${name}: ${outcome.usage}`, 2);
  if (!outcome.ok) return complain(sentenceOf(outcome.failure), 3);
  await printed(outcome.value.document);
  return outcome.value.status;
}

type RunOutcome = Awaited<ReturnType<Awaited<ReturnType<(typeof verbTable)[string]>>['run']>>;

function complain(sentence: string, status: number): number {
  process.stderr.write(`lapstrake: ${sentence.replace(/\s+/g, ' ').trim()}\n`);
  return status;
}
