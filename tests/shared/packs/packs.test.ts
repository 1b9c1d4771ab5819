import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { applyCommand } from '../../../core/job/commands/applyCommand';
import type { Command } from '../../../core/job/commands/types';
import { unpackJob } from '../../../core/job/container';
import { estimate } from '../../../core/job/estimate';
import { issueLayout } from '../../../core/job/issueLayout';
import { newJob } from '../../../core/job/newJob';
import type { Estimate } from '../../../core/job/result';
import type { Job } from '../../../core/job/schema';
import { logOf, toProbeAgain } from '../../../core/job/weldLog';
import { readLinework } from '../../../core/plan/linework';
import type { Linework } from '../../../core/plan/types';
import { formatMoney } from '../../../core/units/figures';
import { cutListCsv, orderCsv, weldsCsv } from '../../../shared/packs/csv';
import { printable } from '../../../shared/packs/printable';
import { PACK_NAMES } from '../../../shared/packs/packNames';
import { timeOf } from '../../../core/units/times';
import { writePack } from '../../../shared/packs/writePack';
import { openPdf, readPage } from '../../../shared/readers/pdf';
import { smallPdf } from '../readers/smallPdf';

const demo = (name: string) =>
  new Uint8Array(readFileSync(new URL(`../../../demo-data/${name}`, import.meta.url)));

let job: Job;
let files: ReadonlyMap<string, Uint8Array>;
let result: Estimate;

beforeAll(() => {
  const unpacked = unpackJob(demo('school.lapjob'));
  if ('refusal' in unpacked) throw new Error(unpacked.refusal);
  job = unpacked.job;
  files = unpacked.drawings;
  result = estimate(job);
});

async function pagesOf(bytes: Uint8Array): Promise<Linework[]> {
  const opened = await openPdf(bytes);
  if (!opened.ok) throw new Error(opened.failure.what);
  const pages: Linework[] = [];
  for (let k = 1; k <= opened.value.pageCount; k++) {
    const page = await readPage(opened.value, k);
    if (!page.ok) throw new Error(page.failure.what);
    pages.push(readLinework(page.value));
  }
  await opened.value.close();
  return pages;
}

const wordsOf = (pages: readonly Linework[]) => pages.flatMap((page) => page.notes.map((note) => note.text));
const plain = (text: string) => text.replaceAll('\u202f', ' ');

/** Words of which no letter touches the other's: capitals and figures stand seven tenths of their size high. */
function apart(...words: readonly [Linework['notes'][number], Linework['notes'][number]]): boolean {
  const [a, b] = words.map(({ at: [x, y], width: long, height, angle }) => {
    const high = 0.7 * height;
    return Math.abs(angle) < 1
      ? { x0: x, x1: x + long, y0: y, y1: y + high }
      : { x0: x - high, x1: x, y0: y, y1: y + long };
  }) as [Record<'x0' | 'x1' | 'y0' | 'y1', number>, Record<'x0' | 'x1' | 'y0' | 'y1', number>];
  return a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0;
}

describe('packs', () => {
  it.each(PACK_NAMES)('%s: the same job gives the same bytes', async (name) => {
    const once = await writePack(name, { job, estimate: result, files });
    const again = await writePack(name, { job, estimate: estimate(job), files });
    expect(again.length).toBe(once.length);
    expect(Buffer.compare(Buffer.from(again), Buffer.from(once))).toBe(0);
  });

  it('the bid prints every line of the bid and its total, and names what was assumed', async () => {
    const words = wordsOf(await pagesOf(await writePack('bid.pdf', { job, estimate: result, files })));
    expect(words).toContain(`${result.bid.currency} ${plain(formatMoney(result.bid.total))}`);
    for (const line of result.bid.lines) {
      expect(words).toContain(line.assumed ? `${line.label} *` : line.label);
      expect(words).toContain(plain(formatMoney(line.amount)));
    }
    expect(words).toContain('* Assumed, and not confirmed by a person');
  });

  it('the order draws every roll and every piece', async () => {
    const words = wordsOf(await pagesOf(await writePack('order.pdf', { job, estimate: result, files })));
    for (const roof of result.roofs)
      for (const roll of roof.layout?.cutList.rolls ?? []) {
        expect(words).toContain(roll.id);
        for (const piece of roll.pieces) expect(words).toContain(piece.sheet);
      }
  });

  // The south side of the main roof is 60 m: at 1:250 it is 240 mm on paper, 680.315 pt.
  it('the layout is true to its stated scale, and the plan lies under it in place', async () => {
    const [sheets] = await pagesOf(await writePack('roof.pdf', { job, estimate: result, files }));
    if (!sheets) throw new Error('no page');
    expect(sheets.notes.map((note) => note.text)).toContain('1 : 250, printed at full size');
    const side = lines(sheets).filter(
      (line) => line.flat && Math.abs(line.length - (60_000 / 250) * (72 / 25.4)) < 0.01,
    );
    // The layout's own edge and the plan's edge under it, on one line; its dimension and others lie apart.
    const rows = new Set(side.map((line) => Math.round(line.y * 50)));
    expect(side.length).toBeGreaterThan(rows.size);
  });

  it('a plan that is stored turned and cropped lies under the layout just as the upright one', async () => {
    const turned = demo('school-roof-A-turned.pdf');
    const sha256 = createHash('sha256').update(turned).digest('hex');
    const [id, drawing] = Object.entries(job.drawings)[0] ?? [];
    if (!id || !drawing) throw new Error('the demo has a drawing');
    const other: Job = { ...job, drawings: { [id]: { ...drawing, sha256 } } };
    const [upright] = await pagesOf(await writePack('roof.pdf', { job, estimate: result, files }));
    const [same] = await pagesOf(
      await writePack('roof.pdf', { job: other, estimate: result, files: new Map([[sha256, turned]]) }),
    );
    if (!upright || !same) throw new Error('no page');
    expect(same.segments.length).toBe(upright.segments.length);
    let worst = 0;
    same.segments.forEach((value, k) => {
      worst = Math.max(worst, Math.abs(value - (upright.segments[k] ?? NaN)));
    });
    expect(worst).toBeLessThan(0.01);
    expect(same.layers).toEqual(upright.layers);
    expect(same.layers).toContain('Dimensions');
  });

  it('a plan that cannot be put under the layout is said on the sheet, and the layout is there', async () => {
    const words = wordsOf(
      await pagesOf(await writePack('roof.pdf', { job, estimate: result, files: new Map() })),
    );
    expect(words.join(' ')).toContain('The plan could not be put under the layout: its file is not at hand.');
    expect(words).toContain('A-C01.1');
  });

  it('names in any script are printed as far as the type goes, and the rest is said', async () => {
    const named: Job = { ...job, about: { ...job.about, name: 'Łódź 屋根 ≥ 2', client: '' } };
    const words = wordsOf(
      await pagesOf(await writePack('order.pdf', { job: named, estimate: result, files })),
    );
    expect(words).toContain('Lódz ¤¤ >= 2');
    expect(words.join(' ')).toMatch(/could not be printed/);
  });
});

describe('packs of jobs that are not done', () => {
  it('a layer that the plan keeps switched off stays off under the layout', async () => {
    const plan = smallPdf({
      content: '/OC /On BDC 0 90 m 500 90 l S EMC /OC /Off BDC 0 95 m 500 95 l S EMC',
      resources: '/Properties << /On 10 0 R /Off 11 0 R >>',
      objects: ['<< /Type /OCG /Name (Walls) >>', '<< /Type /OCG /Name (Furniture) >>'],
      catalog: '/OCProperties << /OCGs [10 0 R 11 0 R] /D << /OFF [11 0 R] >> >>',
    });
    const sha256 = createHash('sha256').update(plan).digest('hex');
    const [id, drawing] = Object.entries(job.drawings)[0] ?? [];
    if (!id || !drawing) throw new Error('the demo has a drawing');
    const other: Job = { ...job, drawings: { [id]: { ...drawing, sha256 } } };
    const bytes = await writePack('roof.pdf', {
      job: other,
      estimate: result,
      files: new Map([[sha256, plan]]),
    });
    const [page] = await pagesOf(bytes);
    expect(page?.layers).toContain('Walls');
    expect(page?.layers).not.toContain('Furniture');
  });

  it('a job without a roof still gives every pack', async () => {
    const empty = newJob({ name: 'Empty', date: '2026-01-02' });
    for (const name of PACK_NAMES) {
      const bytes = await writePack(name, { job: empty, estimate: estimate(empty), files: new Map() });
      expect(bytes.length, name).toBeGreaterThan(20);
    }
  });

  it('a roof that cannot be laid says why on its sheet', async () => {
    const [south] = Object.values(job.roofs)[0]?.outline ?? [];
    if (!south) throw new Error('the demo has a roof');
    const moved = applyCommand(job, { kind: 'moveCorner', edge: south, at: [1900, 1500] });
    if ('refusal' in moved) throw new Error(moved.refusal);
    const broken = estimate(moved.job);
    const fault = broken.roofs.flatMap((roof) => roof.faults)[0];
    if (!fault) throw new Error('the roof should be at fault');
    const words = wordsOf(
      await pagesOf(await writePack('roof.pdf', { job: moved.job, estimate: broken, files })),
    );
    expect(words).toContain('This roof is not laid');
    expect(words.join(' ').replace(/\s+/g, ' ')).toContain(fault.message.split(' ').slice(0, 6).join(' '));
  });
});

describe('lists for a spreadsheet', () => {
  it('text that begins like a formula stays text', () => {
    const line = result.order.lines[0];
    if (!line) throw new Error('the demo orders something');
    const csv = orderCsv({
      order: {
        ...result.order,
        lines: [{ ...line, description: '=1+1', product: '@cmd', formula: '-2\n+3', packName: '\t=x' }],
      },
    });
    const [, row] = csv.split('\r\n');
    expect(row).toContain("'@cmd");
    expect(row).toContain("'=1+1");
    expect(row).not.toMatch(/(^|,)"?[=+@]/);
  });

  it('no figure has more decimals than its unit means, and none is lost', () => {
    for (const csv of [orderCsv(result), cutListCsv(result), weldsCsv(result)])
      expect(csv).not.toMatch(/\d\.\d{5}/);
    const rows = orderCsv(result).split('\r\n');
    const flashing = result.order.lines.find(({ key }) => key === 'flashing');
    expect(rows.find((row) => row.startsWith('flashing-'))).toContain(`,${flashing?.need.toFixed(2)},rolls,`);
    const metres = weldsCsv(result)
      .trim()
      .split('\r\n')
      .slice(1)
      .map((row) => Number(row.split(',')[7]));
    const exact = result.weldPlan.runs.map((run) => run.length / 1000);
    metres.forEach((length, k) => expect(Math.abs(length - (exact[k] ?? 0))).toBeLessThan(0.000_051));
  });

  it('the cut list balances: pieces and offcut are the roll', () => {
    const rows = cutListCsv(result)
      .trim()
      .split('\r\n')
      .slice(1)
      .map((row) => row.split(','))
      .filter((row) => !/^(flashing|target sheet|strip over) /.test(row[4] ?? ''));
    expect(rows.length).toBe(result.roofs.flatMap((roof) => roof.layout?.sheets ?? []).length);
    const rolls = new Map<string, number>();
    for (const row of rows)
      rolls.set(row[1] ?? '', (rolls.get(row[1] ?? '') ?? 0) + Number(row[7]) + Number(row[8]));
    expect([...rolls.values()].every((length) => Math.abs(length - 30_000) < 0.05)).toBe(true);
  });

  it('the cut list names every flashing strip with the roll it comes out of', () => {
    const strips = result.roofs.flatMap((roof) => roof.reused);
    expect(strips.length).toBeGreaterThan(0);
    const rows = cutListCsv(result).split('\r\n');
    for (const { roll, edge } of strips)
      expect(rows.some((row) => row.includes(`,${roll},`) && row.includes(`flashing ${edge} `))).toBe(true);
  });

  it('and every patch that comes out of an offcut, numbered on from the strips', () => {
    const cut = result.roofs.flatMap(({ cutPatches }) => cutPatches.filter(({ from }) => from !== null));
    expect(cut.length).toBeGreaterThan(0);
    const rows = cutListCsv(result)
      .split('\r\n')
      .slice(1)
      .map((row) => row.split(','));
    for (const { id, from } of cut) {
      const own = rows.filter((row) => row[1] === from?.roll);
      expect(own.map((row) => Number(row[3]))).toEqual(own.map((_, k) => k + 1));
      expect(own.some((row) => / (target|slit) /.test(` ${row[4]} `) && row[4]?.includes(id))).toBe(true);
    }
  });

  it('after an edge was measured, lists and labels say which sheets changed and what they were', async () => {
    const [edge] = Object.values(job.roofs)[0]?.outline.slice(2) ?? [];
    if (!edge) throw new Error('the demo has a roof');
    const measured = given(job, [
      { kind: 'setEdges', edges: [edge], fields: { measured: { from: 25, to: 25 } } },
    ]);
    const now = estimate(measured);
    const changed = now.roofs.flatMap(({ refit }) => refit?.changed ?? []);
    expect(changed.length).toBeGreaterThan(2);
    const rows = cutListCsv(now).trim().split('\r\n');
    for (const { sheet, was, is } of changed) {
      const row = rows.find((one) => one.split(',')[4] === sheet)?.split(',');
      expect([Number(row?.[7]), Number(row?.[9])]).toEqual([is, was]);
    }
    expect(rows.slice(1).filter((row) => !row.endsWith(',')).length).toBe(changed.length);
    const order = wordsOf(
      await pagesOf(await writePack('order.pdf', { job: measured, estimate: now, files })),
    );
    expect(order.join(' ')).toContain('these labels changed');
    const crew = wordsOf(await pagesOf(await writePack('roof.pdf', { job: measured, estimate: now, files })));
    expect(crew.filter((word) => /^was .* before$/.test(word)).length).toBe(changed.length);
  });

  it('the crew finds each day, each sheet with its label, and the test strips in the roof pack', async () => {
    const words = wordsOf(await pagesOf(await writePack('roof.pdf', { job, estimate: result, files })));
    for (const day of result.workPlan.days) expect(words).toContain(`Day ${day.number}`);
    for (const sheet of result.roofs.flatMap((roof) => roof.layout?.sheets ?? []))
      expect(words).toContain(sheet.id);
    expect(words.filter((word) => word === 'not issued: for trial only').length).toBe(
      result.roofs.flatMap((roof) => roof.layout?.sheets ?? []).length,
    );
    expect(words).toContain('Test strips, to fill in');
    expect(words).toContain('A-C01');
  });

  it('the crew finds each sheet’s place, each T-joint, each fastener row and what is probed', async () => {
    const pages = await pagesOf(await writePack('roof.pdf', { job, estimate: result, files }));
    const words = wordsOf(pages).map(plain);
    // Course 2 of the main roof begins 2.88 m left of its lower right corner and 75 mm below, in the gutter.
    const at = words.indexOf('2 880 mm left, 75 mm down');
    expect(words[at - 1]).toBe('from corner A2:');
    const titled = (title: string) =>
      pages
        .map((page) => page.notes.map((note) => note.text))
        .filter((notes) => notes.includes(title))
        .flat();
    const joints = result.roofs.flatMap((roof) => roof.seams?.tJoints ?? []);
    for (const joint of joints) expect(titled('T-JOINTS')).toContain(joint.id);
    expect(titled('T-JOINTS').filter((word) => word === 'patch')).toHaveLength(joints.length);
    const rows = result.roofs.flatMap((roof) => roof.fastening?.rows ?? []);
    const counts = titled('FASTENERS').filter((word) => /^\d+$/.test(word));
    for (const row of rows) expect(counts).toContain(String(row.count));
    for (const day of result.workPlan.days) {
      const own = titled(`DAY ${day.number} IN ORDER`);
      for (const { sheet } of day.sheets)
        expect(own.some((word) => word.startsWith(`Lay ${sheet}, unroll `))).toBe(true);
      expect(titled('PROBING')).toContain(`Day ${day.number}`);
    }
    const orders = titled('PROBING').flatMap((word) => (/^[\d–, ]+$/.test(word) ? spanned(word) : []));
    expect([...orders].sort((a, b) => a - b)).toEqual(result.weldPlan.runs.map((run) => run.order));
  });

  it('each day’s list says when its sheets and strips are due, and when it rests', async () => {
    const pages = await pagesOf(await writePack('roof.pdf', { job, estimate: result, files }));
    for (const day of result.workPlan.days) {
      const words = pages
        .map((page) => page.notes.map(({ text }) => text))
        .filter((notes) => notes.includes(`DAY ${day.number} IN ORDER`))
        .flat();
      for (const step of day.steps) if (step.what === 'sheet') expect(words).toContain(timeOf(step.from));
      for (const strip of day.strips) expect(words).toContain(timeOf(strip.at));
      const rests = day.clock.pauses.filter(({ from }) => from <= (day.steps.at(-1)?.from ?? 0));
      expect(words.filter((word) => word === 'Break')).toHaveLength(rests.length);
    }
  }, 20_000);

  it('a list that runs over says so on each of its pages', async () => {
    const pages = await pagesOf(await writePack('roof.pdf', { job, estimate: result, files }));
    let over = 0;
    for (const day of result.workPlan.days) {
      const own = pages
        .map((page) => page.notes.map(({ text }) => text))
        .filter((notes) => notes.includes(`DAY ${day.number} IN ORDER`));
      const said = own.map((notes) => notes.filter((text) => /^page \d+ of \d+$/.test(text))[0]);
      // The foot has the pack's own count.
      if (own.length === 1) expect(said).toEqual([expect.stringMatching(/ of 51$/)]);
      else expect(said).toEqual(own.map((_, k) => `page ${k + 1} of ${own.length}`));
      expect(own.slice(1).every((notes) => notes.includes(`Day ${day.number}, continued`))).toBe(true);
      over += own.length - 1;
    }
    expect(over).toBeGreaterThan(0);
  });

  it('each day’s maps name its sheets and number its welds, and no such word stands on another', async () => {
    const pages = await pagesOf(await writePack('roof.pdf', { job, estimate: result, files }));
    for (const day of result.workPlan.days) {
      const maps = pages.filter(
        ({ notes }) =>
          notes.some(({ text }) => text === `Day ${day.number}`) &&
          notes.some(({ text }) => text === 'Scale of this sheet'),
      );
      const marks = maps.map(({ notes }) => {
        const column = Math.min(
          ...notes.flatMap(({ text, at }) => (text === 'Scale of this sheet' ? at[0] : [])),
        );
        return notes.filter(({ at, height }) => at[0] < column - 20 && height > 10);
      });
      const words = marks.flat().map(({ text }) => text);
      for (const { sheet } of day.sheets) expect(words).toContain(sheet);
      for (const run of result.weldPlan.runs)
        if (day.runs.includes(run.id) && run.kind !== 't-joint' && run.kind !== 'corner')
          expect(words).toContain(String(run.order));
      for (const map of marks)
        map.forEach((mark, k) => {
          for (const other of map.slice(k + 1))
            expect(apart(mark, other), `day ${day.number}: ${mark.text} on ${other.text}`).toBe(true);
        });
    }
  });

  it('what slows the work stands by day', async () => {
    const slow = given(job, [
      { kind: 'setRate', path: ['welding', 'productivity', 'height'], value: 1.1 },
      { kind: 'setRate', path: ['welding', 'productivity', 'weather'], value: 1.2 },
    ]);
    const slowed = estimate(slow);
    const words = wordsOf(await pagesOf(await writePack('roof.pdf', { job: slow, estimate: slowed, files })));
    expect(words).toContain('height × 1.10');
    const [first] = slowed.workPlan.days;
    const hours = (first?.slowed.reduce((sum, part) => sum + part.minutes, 0) ?? NaN) / 60;
    expect(words).toContain(`${hours.toFixed(1)} h`);
  });

  it('after a failed cut-out the probing list begins with what the log asks to be probed again', async () => {
    const issued = issueLayout(result, { id: 'issue-1', number: 1, date: '2026-03-16', note: '' });
    if ('refusal' in issued) throw new Error(issued.refusal);
    const [roof] = issued.issue.roofs;
    const seam = roof?.seams.find(({ method }) => method === 'machine');
    if (!roof || !seam) throw new Error('the demo has a machine weld');
    const failed = given(job, [
      { kind: 'addIssue', issue: issued.issue },
      {
        kind: 'addLogEntry',
        entry: {
          id: 'log-1',
          number: 1,
          kind: 'cut-out',
          issue: 1,
          date: '2026-03-17',
          roof: roof.roof,
          on: seam.id,
          at: seam.from,
          machine: 'Machine 1',
          operator: 'ab',
          membrane: 'TPO 1.5 mm',
          lead: '',
          speed: 3,
          temperature: null,
          ambient: null,
          result: 'peeled clean',
          reading: null,
          target: { value: 45, unit: 'lbf/in' },
          note: '',
        },
      },
    ]);
    const again = toProbeAgain(issued.issue, [issued.issue], logOf(failed)).map((one) => one.seam);
    expect(again).toContain(seam.id);
    const pages = await pagesOf(
      await writePack('roof.pdf', { job: failed, estimate: estimate(failed), files }),
    );
    const words = pages
      .map((page) => page.notes.map((note) => note.text))
      .find((notes) => notes.includes('To be probed again now, issue 1'));
    for (const one of again) expect(words).toContain(one);
  });

  it('the welds are in order and add up', () => {
    const rows = weldsCsv(result).trim().split('\r\n').slice(1);
    expect(rows).toHaveLength(result.weldPlan.runs.length);
    expect(rows.map((row) => Number(row.split(',')[0]))).toEqual(
      result.weldPlan.runs.map((run) => run.order),
    );
  });
});

function given(to: Job, commands: readonly Command[]): Job {
  return commands.reduce((at, command) => {
    const next = applyCommand(at, command);
    if ('refusal' in next) throw new Error(next.refusal);
    return next.job;
  }, to);
}

/** 3–5, 9 → 3, 4, 5, 9 */
function spanned(text: string): number[] {
  return text.split(', ').flatMap((span) => {
    const [from = NaN, to = from] = span.split('–').map(Number);
    return Array.from({ length: to - from + 1 }, (_, k) => from + k);
  });
}

describe('printable', () => {
  it.each([
    ['3\u202f168 m²', '3\u00a0168 m²'],
    ['≥ 1.5 – 2 €', '>= 1.5 – 2 €'],
    ['Škoda č. 5', 'Škoda c. 5'],
    ['a\u2212b', 'a–b'],
  ])('%s', (text, expected) => expect(printable(text)).toEqual({ text: expected, lost: [] }));
  it('keeps count of what is lost', () => {
    expect(printable('屋')).toEqual({ text: '¤', lost: ['屋'] });
  });
});

function lines({ segments }: Linework): { flat: boolean; length: number; y: number }[] {
  const found = [];
  for (let k = 0; k + 3 < segments.length; k += 4) {
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = segments.subarray(k, k + 4);
    found.push({ flat: Math.abs(y2 - y1) < 0.01, length: Math.hypot(x2 - x1, y2 - y1), y: y1 });
  }
  return found;
}
