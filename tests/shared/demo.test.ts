import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { unpackJob } from '../../core/job/container';
import { estimate } from '../../core/job/estimate';
import type { Estimate } from '../../core/job/result';
import { drawDemoFiles } from '../../demo-data/draw/files';

const demo = (name: string) => readFileSync(new URL(`../../demo-data/${name}`, import.meta.url));
const hashOf = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

describe('demo data', () => {
  const manifest: unknown = JSON.parse(demo('manifest.json').toString('utf8'));

  it('drawn anew gives the files that are here, byte for byte, twice', async () => {
    for (let time = 0; time < 2; time++) {
      const drawn = await drawDemoFiles();
      const found = Object.fromEntries(
        [...drawn].map(([name, bytes]) => [name, { sha256: hashOf(bytes), bytes: bytes.length }]),
      );
      expect(found).toEqual(manifest);
    }
  });

  it('is what the manifest says, and no file is over a megabyte', () => {
    for (const [name, { sha256, bytes }] of Object.entries(
      manifest as Record<string, { sha256: string; bytes: number }>,
    )) {
      expect(hashOf(demo(name)), name).toBe(sha256);
      expect(bytes, name).toBeLessThan(1_000_000);
    }
  });
});

// The figures are worked in demo-data/takeoff.md.
describe('the school, against its take-off by hand', () => {
  let result: Estimate;
  const figure = (roof: string, key: string) =>
    result.byRoof[roof]?.find((quantity) => quantity.key === key)?.value ?? NaN;

  beforeAll(() => {
    const unpacked = unpackJob(demo('school.lapjob'));
    if ('refusal' in unpacked) throw new Error(unpacked.refusal);
    result = estimate(unpacked.job);
  });

  it('has no fault and no finding of severity error', () => {
    expect(result.roofs.flatMap((roof) => roof.faults)).toEqual([]);
    expect(result.findings.filter((finding) => finding.severity === 'error')).toEqual([]);
  });

  it.each([
    ['roof-A', 'roof.area', 2237.42],
    ['roof-A', 'roof.perimeter', 212],
    ['roof-A', 'roof.edges', 306.2],
    ['roof-A', 'weld.side', 751.5],
    ['roof-A', 'rolls.bound', 28],
    ['roof-B', 'roof.area', 84],
    ['roof-B', 'roof.perimeter', 40],
    ['roof-B', 'weld.side', 24],
    ['roof-B', 'rolls.field', 2],
  ])('%s %s is %d', (roof, key, value) => expect(figure(roof, key)).toBeCloseTo(value, 2));

  it('runs of 817.575 m and 0.08 m for every end lap are cut, 3 m wide', () => {
    const laps = figure('roof-A', 'count.endLaps');
    expect(laps).toBeGreaterThanOrEqual(11);
    expect(figure('roof-A', 'area.cut')).toBeCloseTo(3 * (817.575 + 0.08 * laps), 2);
    expect(figure('roof-B', 'area.cut')).toBeCloseTo(3 * 30.375, 2);
  });

  it('lays 21 and 5 courses', () => {
    expect(result.roofs.map((roof) => roof.layout?.courses.length)).toEqual([21, 5]);
    expect(result.roofs.map((roof) => roof.layout?.rules.direction)).toEqual([90, 90]);
  });
});
