import { expect, test } from 'vitest';
import { call, REFUSAL } from './call';

const SHEET = 'demo-data/school-roof-A.pdf';

interface Answer {
  readonly outline: readonly (readonly [number, number])[];
  readonly openings: readonly unknown[];
  readonly closedGaps: readonly unknown[];
  readonly area: number;
}

test('the roof around a point, with its openings', async () => {
  const { status, out } = await call(['region', SHEET, '--page', '1', '--at', '600,500']);
  expect(status).toBe(0);
  const region = JSON.parse(out) as Answer;
  expect([region.outline.length, region.openings.length, region.closedGaps.length]).toEqual([6, 7, 0]);
  // A point is 25.4 / 72 mm on paper, and 100 times that on the roof.
  expect(region.area * (2.54 / 72) ** 2).toBeCloseTo(2237.42, 0);
});

test('the outer boundary, with a point in one word', async () => {
  const { status, out } = await call(['region', SHEET, '--at=600,500', '--outer']);
  expect(status).toBe(0);
  expect((JSON.parse(out) as Answer).outline).toHaveLength(10);
});

test.each([
  ['a point off the page', ['--at', '-5,3'], /outside the page/],
  ['a point in no shape', ['--at', '8,8'], /do not close within gaps/],
  ['a scan', null, /picture without lines/],
])('%s is refused with the reason', async (_what, words, why) => {
  const { status, out, error } = await call(
    words ? ['region', SHEET, ...words] : ['region', 'demo-data/school-roof-A-scan.pdf', '--at', '600,500'],
  );
  expect([status, out]).toEqual([3, '']);
  expect(error).toMatch(REFUSAL);
  expect(error).toMatch(why);
});

test.each([
  ['no point', []],
  ['half a point', ['--at', '600']],
  ['a gap that is none', ['--at', '600,500', '--gap', 'wide']],
  ['a layer that is not there', ['--at', '600,500', '--without', 'Furniture']],
])('%s is wrong usage', async (_what, words) => {
  const { status, out } = await call(['region', SHEET, ...words]);
  expect([status, out]).toEqual([2, '']);
});
