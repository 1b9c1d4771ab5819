// `npm run bench [-- --quick]`: prints a table and writes bench.json. Gates are ratios within this run.
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { benchCutting } from './cutting';
import { benchLaying } from './laying';
import { benchOutlines } from './outlines';
import { benchReading } from './reading';
import { benchSearching } from './searching';
import type { Row } from './measure';
import { benchWelding } from './welding';
import { benchWindow } from './window';

const quick = process.argv.includes('--quick');
const groups: readonly (readonly [name: string, run: (quick: boolean) => Row[] | Promise<Row[]>])[] = [
  ['Laying', benchLaying],
  ['Cutting', benchCutting],
  ['Searching', benchSearching],
  ['Reading', benchReading],
  ['The window', benchWindow],
  ['Welding', benchWelding],
  ['Real outlines', benchOutlines],
];

const results: { group: string; rows: Row[] }[] = [];
let failed = 0;
for (const [group, run] of groups) {
  console.log(`\n${group}`);
  const rows = await run(quick);
  results.push({ group, rows });
  for (const row of rows) {
    console.log(`  ${row.name}: ${row.figure}`);
    if (!row.ratio) continue;
    const met = row.ratio.value >= row.ratio.atLeast;
    if (!met) failed++;
    console.log(
      `    ${row.ratio.value.toFixed(1)} × ${row.ratio.against} (at least ${row.ratio.atLeast}): ${met ? 'met' : 'MISSED'}`,
    );
  }
}
writeFileSync(
  'bench.json',
  `${JSON.stringify({ node: process.version, cores: cpus().length, quick, results }, null, 2)}\n`,
);
console.log(`\n${failed === 0 ? 'every ratio met' : `${failed} ratio(s) missed`}; bench.json written`);
process.exitCode = failed === 0 ? 0 : 1;
