// The search in a process of its own, as a person at the command line waits for it: nothing is compiled before.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import type { Roof } from '../../core/roof/types';
import { ms, timeByTurns, type Row, type Timing } from './measure';

const PROGRAM = 'dist/cli/lapstrake.mjs';

/** `layout` with a direction to choose, against the same program asked for nothing but a schema. */
export function coldSearchRow(name: string, { outline, openings }: Roof, rounds: number): Row {
  if (!existsSync(PROGRAM)) return { name, figure: 'the program is not built (npm run build); left out' };
  const input = JSON.stringify({
    outline,
    openings: openings.map(({ ring }) => ring),
    sheet: { width: 3000, length: 30_000 },
    sideLap: 120,
    endLap: 80,
    endLapStagger: 300,
    minPiece: 1500,
    joints: 'allowed',
    rip: 'forbidden',
    direction: 'auto',
    rates: { rollCost: 990, weldPerM: 1.3, handWeldPerM: 5, jointCost: 5 },
  });
  const [whole, start] = timeByTurns(
    [() => called(['layout', '-'], input), () => called(['schema', 'layout'], '')],
    rounds,
  ) as [Timing, Timing];
  return { name, figure: `${ms(whole)} from call to answer; the program's start alone ${ms(start)}` };
}

function called(words: readonly string[], input: string): void {
  const { status, stderr } = spawnSync(process.execPath, [PROGRAM, ...words], { input, maxBuffer: 1 << 28 });
  if (status !== 0 && status !== WITH_FINDINGS) throw new Error(stderr.toString());
}

/** Everything is written, but a finding of severity error stands. */
const WITH_FINDINGS = 4;
