import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Command } from '../../core/job/commands/types';
import type { Job } from '../../core/job/schema';
import { replayJournal } from '../../renderer/document/journal';
import { jobOnBlankPage, L_SHAPE, startDriver, traceRing } from './driver';
import type { Driver } from './driver';

type Act =
  | {
      readonly do: 'command';
      readonly pick: number;
      readonly x: number;
      readonly y: number;
      readonly kind: number;
    }
  | { readonly do: 'undo' }
  | { readonly do: 'redo' }
  | {
      readonly do: 'drag';
      readonly pick: number;
      readonly x: number;
      readonly y: number;
      readonly end: 'up' | 'cancel';
    };

const coordinate = fc.integer({ min: 0, max: 900 });
const act: fc.Arbitrary<Act> = fc.oneof(
  fc.record({
    do: fc.constant('command' as const),
    pick: fc.nat(40),
    x: coordinate,
    y: coordinate,
    kind: fc.nat(6),
  }),
  fc.record({ do: fc.constant('undo' as const) }),
  fc.record({ do: fc.constant('redo' as const) }),
  fc.record({
    do: fc.constant('drag' as const),
    pick: fc.nat(40),
    x: coordinate,
    y: coordinate,
    end: fc.constantFrom('up' as const, 'cancel' as const),
  }),
);

function commandFor(job: Job, { pick, x, y, kind }: Extract<Act, { do: 'command' }>): Command | null {
  const edges = Object.keys(job.edges);
  const edge = edges[pick % Math.max(1, edges.length)];
  if (kind === 6) return { kind: 'setSystem', fields: { sideLap: 60 + (x % 100) } };
  if (kind === 5) return { kind: 'setAbout', fields: { client: `Client ${x}` } };
  if (edge === undefined) return null;
  if (kind === 0) return { kind: 'moveCorner', edge, at: [x, y] };
  if (kind === 1) return { kind: 'insertCorner', after: edge, edge: `n${x}-${y}-${pick}`, at: [x, y] };
  if (kind === 2) return { kind: 'removeCorner', edge };
  if (kind === 3) return { kind: 'setEdges', edges: [edge], fields: { upstand: x } };
  const [roof] = Object.keys(job.roofs);
  return pick % 3 === 0 && roof !== undefined
    ? { kind: 'removeRoof', roof }
    : { kind: 'setEdges', edges: [edge], fields: { kind: 'eave' } };
}

function perform(driver: Driver, one: Act): void {
  const { editor } = driver;
  if (one.do === 'undo') editor.undo();
  if (one.do === 'redo') editor.redo();
  if (one.do === 'command') {
    const command = commandFor(driver.job(), one);
    if (command) editor.run(command);
  }
  if (one.do !== 'drag') return;
  const corners = Object.values(driver.job().edges);
  const corner = corners[one.pick % Math.max(1, corners.length)];
  if (!corner) return;
  driver.down(corner.at);
  driver.move([one.x, one.y], 'alt');
  if (one.end === 'cancel') driver.press('Escape');
  driver.up([one.x, one.y]);
}

function started(): Driver {
  const driver = startDriver(jobOnBlankPage());
  traceRing(driver, L_SHAPE);
  return driver;
}

describe('history', () => {
  it('undoing everything gives the first job, redoing everything the last', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 25 }), (acts) => {
        const driver = started();
        for (const one of acts) perform(driver, one);
        const last = driver.job();
        let steps = 0;
        while (driver.editor.undo() !== null) steps++;
        expect(driver.job()).toEqual(jobOnBlankPage().job);
        for (let k = 0; k < steps; k++) driver.editor.redo();
        expect(driver.job()).toEqual(last);
      }),
      { numRuns: 150 },
    );
  });

  it('replaying the journal gives the same job, and the same history', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 20 }), (acts) => {
        const driver = started();
        for (const one of acts) perform(driver, one);
        const replayed = replayJournal(driver.journal(), () => {});
        expect(replayed?.torn).toBe(0);
        expect(replayed?.editor.state.get().job).toEqual(driver.job());
        expect(replayed?.editor.state.get().undoLabel).toEqual(driver.editor.state.get().undoLabel);
        expect(replayed?.editor.state.get().redoLabel).toEqual(driver.editor.state.get().redoLabel);
      }),
      { numRuns: 60 },
    );
  });

  it('a journal torn in its last line loses that line only', () => {
    const driver = started();
    driver.editor.run({ kind: 'setAbout', fields: { client: 'Kept' } });
    const kept = driver.job();
    driver.editor.run({ kind: 'setAbout', fields: { client: 'Torn away' } });
    const text = driver.journal();
    const replayed = replayJournal(text.slice(0, text.length - 9), () => {});
    expect(replayed?.torn).toBe(1);
    expect(replayed?.editor.state.get().job).toEqual(kept);
  });

  it('a refused command leaves the job as it was', () => {
    const driver = started();
    const before = driver.job();
    expect(driver.editor.run({ kind: 'setSystem', fields: { sideLap: 9000 } })).toContain('side lap');
    expect(driver.job()).toBe(before);
  });

  it('several commands are one entry, or none where one of them is refused', () => {
    const driver = started();
    const before = driver.job();
    const refusal = driver.editor.run([
      { kind: 'setAbout', fields: { client: 'A' } },
      { kind: 'removeCorner', edge: 'nowhere' },
    ]);
    expect(refusal).not.toBeNull();
    expect(driver.job()).toBe(before);
  });
});
