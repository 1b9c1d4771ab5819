// The whole job, once through, by mouse and keys: the same steps on the desktop and in a browser.
import { execFile } from 'node:child_process';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { expect } from 'vitest';
import { clickPlan, figuresOf, stageButton, type Figures, type PagePoint } from './plan';
import type { Program, Start } from './program';

export const PLAN = resolve('demo-data', 'school-roof-A.pdf');

/** The main roof on sheet GS-A-120, corner by corner, in page points. */
export const MAIN_ROOF: readonly PagePoint[] = [
  [198.425, 215.433],
  [1899.213, 215.433],
  [1899.213, 1009.134],
  [1275.591, 1009.134],
  [1275.591, 1519.37],
  [198.425, 1519.37],
];

/** 60 × 28 m and 38 × 18 m, drawn at 1 : 100. */
const MAIN_ROOF_M2 = 60 * 28 + 38 * 18;

/** From the PDF to a saved job; gives the figures that stood in the rail. */
export async function priceFromPlan(program: Program, savedAs: string): Promise<Figures> {
  const { page } = program;
  await stageButton(page, 'Plan').waitFor();
  await page.getByRole('button', { name: /file menu/ }).click();
  await page.getByRole('menuitem', { name: /^New job/ }).click();
  await page.getByRole('button', { name: /^New job/ }).waitFor();
  await program.pick(PLAN, () => page.getByRole('button', { name: 'Import a plan' }).first().click());
  await page.getByText('No scale is set').waitFor();

  const scale = page.getByRole('textbox', { name: 'Scale of this sheet' });
  await scale.fill('1:100');
  await scale.press('Enter');
  await page.getByText(/Set as 1\s?:\s?100/).waitFor();
  // Snapping to the sheet's own lines begins when they have been read.
  await page
    .getByText(/The sheet (itself )?says/)
    .first()
    .waitFor();

  await stageButton(page, 'Roof').click();
  await page.getByRole('button', { name: 'Trace a roof' }).first().click();
  const [first] = MAIN_ROOF;
  await clickPlan(page, [...MAIN_ROOF, ...(first ? [first] : [])]);
  await expect
    .poll(() => figuresOf(page), { timeout: 20_000 })
    .toMatchObject({
      roof: `${MAIN_ROOF_M2} m²`,
      rolls: expect.stringMatching(/^\d+ rolls$/) as string,
      metres: expect.stringMatching(/^\d+ m$/) as string,
      total: expect.stringMatching(/^\d+\.\d\d$/) as string,
    });
  const figures = await figuresOf(page);

  await program.keep(savedAs, async () => {
    await page.getByRole('button', { name: /file menu/ }).click();
    await page.getByRole('menuitem', { name: /^Save as/ }).click();
  });
  await page.getByText('Saved.').waitFor();
  return figures;
}

/** Opens the saved job anew, in a program that never saw it, and reads the same figures. */
export async function readAgain(start: (how: Start) => Promise<Program>, saved: string): Promise<Figures> {
  const program = await start({ file: saved });
  try {
    await expect
      .poll(() => figuresOf(program.page), { timeout: 20_000 })
      .toMatchObject({ total: expect.stringMatching(/^\d+\.\d\d$/) as string });
    return await figuresOf(program.page);
  } finally {
    await program.close();
  }
}

interface Estimate {
  readonly roofs: readonly {
    readonly area: number;
    readonly layout: { readonly rolls: { readonly count: number } };
  }[];
  readonly quantities: readonly { readonly key: string; readonly value: number }[];
  readonly weldPlan: { readonly runs: readonly { readonly length: number }[] };
  readonly bid: { readonly total: string };
}

/** The same figures from the command line, written as the rail writes them. */
export async function figuresFromCommandLine(saved: string): Promise<Figures> {
  const { stdout } = await promisify(execFile)(
    process.execPath,
    [join('dist', 'cli', 'lapstrake.mjs'), 'estimate', saved],
    { maxBuffer: 64 * 1024 * 1024 },
  );
  const { roofs, weldPlan, bid } = JSON.parse(stdout) as Estimate;
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
  return {
    roof: `${Math.round(sum(roofs.map(({ area }) => area)))} m²`,
    rolls: `${sum(roofs.map(({ layout }) => layout.rolls.count))} rolls`,
    metres: `${Math.round(sum(weldPlan.runs.map(({ length }) => length)))} m`,
    total: bid.total,
  };
}
