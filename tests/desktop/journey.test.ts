import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { figuresFromCommandLine, priceFromPlan, readAgain } from './journey';
import type { Figures } from './plan';
import { freshFolder, startBrowser, startDesktop, type Program, type Start } from './program';
import { canShowBrowser, canShowDesktop } from './surroundings';

const SIZE = { width: 1440, height: 900 };

let folder = '';
beforeAll(async () => {
  folder = await freshFolder();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const ways: readonly [string, boolean, (how: Start) => Promise<Program>][] = [
  ['in the desktop window', canShowDesktop, startDesktop],
  ['in a browser over the loopback host', canShowBrowser, startBrowser],
];
const found: Figures[] = [];

describe.each(ways)('the whole job %s', (way, can, start) => {
  test.skipIf(!can)(
    'from a PDF to a price, saved, opened again, and the same from the command line',
    async () => {
      const saved = join(folder, `${way.replace(/\W/g, '-')}.lapjob`);
      const program = await start({ size: SIZE });
      let figures: Figures;
      try {
        figures = await priceFromPlan(program, saved);
        expect(program.complaints).toEqual([]);
      } finally {
        await program.close();
      }
      expect(await readAgain(start, saved)).toEqual(figures);
      expect(await figuresFromCommandLine(saved)).toEqual(figures);
      found.push(figures);
    },
  );
});

test.skipIf(!canShowDesktop || !canShowBrowser)('both ways come to the same figures', () => {
  expect(found).toHaveLength(2);
  expect(found[0]).toEqual(found[1]);
});
