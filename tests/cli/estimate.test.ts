import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { cp, mkdir, readdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { call, freshFolder, REFUSAL, written } from './call';

interface Estimate {
  readonly bid: {
    readonly total: string;
    readonly lines: readonly { readonly amount: string }[];
    readonly subtotals: readonly { readonly amount: string }[];
  };
  readonly roofs: readonly { readonly layout: { readonly rolls: { readonly count: number } } }[];
  readonly findings: readonly { readonly severity: string }[];
  readonly files?: readonly string[];
}

const JOB = join('demo-data', 'school.lapjob');

let folder = '';
let job: Uint8Array;
beforeAll(async () => {
  folder = await freshFolder();
  job = new Uint8Array(await readFile(JOB));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** Cents, so that sums are exact. */
const cents = (amount: string): bigint => BigInt(amount.replace('.', ''));

describe('estimate', () => {
  test('prices the demo job: its lines add up to its total to the cent', async () => {
    const { status, out, error } = await call(['estimate', JOB]);
    const { bid, roofs } = JSON.parse(out) as Estimate;
    const sum = (lines: readonly { readonly amount: string }[]): bigint =>
      lines.reduce((total, { amount }) => total + cents(amount), 0n);
    expect(sum(bid.lines)).toBe(cents(bid.total));
    expect(sum(bid.subtotals)).toBe(cents(bid.total));
    expect(roofs.length).toBeGreaterThan(1);
    expect([status, error]).toEqual([0, '']);
  });

  test('takes a job from standard input, and gives the same bytes twice', async () => {
    const [first, second] = [await call(['estimate', '-'], job), await call(['estimate', '-'], job)];
    expect(first.status).toBe(0);
    expect(second.out).toBe(first.out);
    expect((await call(['estimate', JOB])).out).toBe(first.out);
  });

  test('check says of a job what estimate says', async () => {
    const { findings } = JSON.parse((await call(['estimate', JOB])).out) as Estimate;
    expect(JSON.parse((await call(['check', JOB])).out)).toEqual({ findings });
  });

  test('--out writes the documents, the same bytes each time', async () => {
    const [one, two] = [join(folder, 'one'), join(folder, 'two')];
    const { files } = JSON.parse((await call(['estimate', JOB, '--out', one])).out) as Estimate;
    await call(['estimate', JOB, `--out=${two}`]);
    const names = (await readdir(one)).sort();
    expect(names).toEqual([
      'bid.pdf',
      'bid.xlsx',
      'cut-list.csv',
      'layout.dxf',
      'order.csv',
      'order.pdf',
      'roof.pdf',
      'welds.csv',
    ]);
    expect([...(files ?? [])].sort()).toEqual(names.map((name) => join(one, name)));
    for (const name of names)
      expect(await readFile(join(two, name)), name).toEqual(await readFile(join(one, name)));
  });

  test('a folder gives one summary, the refused among them', async () => {
    const jobs = join(folder, 'jobs');
    await mkdir(jobs);
    await cp(JOB, join(jobs, 'a.lapjob'));
    await written(jobs, 'b.lapjob', job.slice(0, job.byteLength / 2));
    await written(jobs, 'notes.txt', 'not a job');
    const { status, out } = await call(['estimate', jobs]);
    const { bid } = JSON.parse((await call(['estimate', JOB])).out) as Estimate;
    expect(JSON.parse(out)).toMatchObject({
      jobs: [
        { file: 'a.lapjob', total: bid.total },
        { file: 'b.lapjob', refusal: expect.stringContaining('half written') as string },
      ],
    });
    expect(status).toBe(3);
  });

  const inside = (change: (text: string) => string): Uint8Array => rezipped(job, change);

  test.each<[string, () => Uint8Array, RegExp]>([
    ['a text file', () => Buffer.from('my roof'), /not a job file/],
    ['an empty file', () => new Uint8Array(0), /empty/],
    ['half a job', () => job.slice(0, job.byteLength / 2), /half written/],
    [
      'a job of a newer version',
      () => inside((text) => text.replace('"version": 2', '"version": 7')),
      /newer version/,
    ],
    [
      'a scale of nothing',
      () => inside((text) => text.replace(/"mmPerPoint": [\d.]+/, '"mmPerPoint": 0')),
      /mmPerPoint/,
    ],
    [
      'a lap wider than the sheet',
      () => inside((text) => text.replace(/"sideLap": \d+/, '"sideLap": 9000')),
      /sideLap/,
    ],
    [
      'a shortest piece beyond the roll',
      () => inside((text) => text.replace(/"minPiece": \d+/, '"minPiece": 90000')),
      /minPiece/,
    ],
  ])('refuses %s, and writes nothing', async (_what, make, speaksOf) => {
    const out = join(folder, 'refused');
    const called = await call(['estimate', await written(folder, 'job.lapjob', make()), '--out', out]);
    expect(called.error).toMatch(REFUSAL);
    expect(called.error).toMatch(speaksOf);
    expect([called.status, called.out]).toEqual([3, '']);
    await expect(readdir(out)).rejects.toThrow();
  });

  test('an output folder that cannot be made is refused', async () => {
    const plain = await written(folder, 'plain', 'x');
    const { status, error, out } = await call(['estimate', JOB, '--out', join(plain, 'deep')]);
    expect(error).toMatch(REFUSAL);
    expect([status, out]).toEqual([3, '']);
  });
});

/** The job with its job.json changed. */
function rezipped(bytes: Uint8Array, change: (text: string) => string): Uint8Array {
  const files = unzipSync(bytes);
  const text = strFromU8(files['job.json'] ?? new Uint8Array());
  const changed = change(text);
  if (changed === text) throw new Error('the change changed nothing');
  return zipSync({ ...files, 'job.json': strToU8(changed) });
}
