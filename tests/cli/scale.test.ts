import { expect, test } from 'vitest';
import { call, REFUSAL } from './call';

const sheet = (name: string) => `demo-data/${name}.pdf`;

test.each([
  ['school-roof-A', 100],
  ['school-roof-A-turned', 100],
  ['school-roof-A-wrong-note', 100],
  ['office-roof', 96],
])('%s is at 1 : %d', async (name, ratio) => {
  const { status, out } = await call(['scale', sheet(name), '--page', '1']);
  expect(status).toBe(0);
  const document = JSON.parse(out) as {
    candidates: { ratio: number; from: string; evidence: { measured: number; stated: number }[] }[];
  };
  expect(document.candidates[0]).toMatchObject({ ratio, from: 'dimensions' });
  for (const { measured, stated } of document.candidates[0]?.evidence ?? [])
    expect((stated / measured / 25.4) * 72).toBeCloseTo(ratio, 0);
});

test('a scan says that it is a picture', async () => {
  const { status, out } = await call(['scale', sheet('school-roof-A-scan')]);
  expect(status).toBe(0);
  expect(JSON.parse(out)).toMatchObject({ candidates: [], raster: true });
});

test('a page that is not there is refused', async () => {
  const { status, out, error } = await call(['scale', sheet('office-roof'), '--page', '7']);
  expect([status, out]).toEqual([3, '']);
  expect(error).toMatch(REFUSAL);
});
