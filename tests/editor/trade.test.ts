// Lines, falls and flutes by hand: each entry is one step back, optional, and told in the status line.
import { describe, expect, it } from 'vitest';
import type { Job } from '../../core/job/schema';
import { estimate } from '../../core/job/estimate';
import { lapsAtPins, newFindings } from '../../core/job/pins';
import { layingOf, searchRoof } from '../../core/job/searchRoof';
import { replayJournal } from '../../renderer/document/journal';
import { L_SHAPE, startDriver, traceRing } from './driver';
import type { Driver } from './driver';

function roofOf(job: Job) {
  const [roof] = Object.values(job.roofs);
  if (!roof) throw new Error('no roof was traced');
  return roof;
}

function traced(): Driver {
  const driver = startDriver();
  traceRing(driver, L_SHAPE);
  return driver;
}

function withDrain(): Driver {
  const driver = traced();
  driver.choose('placeFitting');
  driver.click([180, 180], 'alt');
  return driver;
}

/** 60 m by 12 m: every course takes more than one roll, so that there are end laps. */
function longRoof(): Driver {
  const driver = startDriver();
  traceRing(driver, [
    [100, 100],
    [700, 100],
    [700, 220],
    [100, 220],
  ]);
  driver.editor.run({
    kind: 'setRoof',
    roof: roofOf(driver.job()).id,
    fields: { laying: { direction: 0, firstCourse: null, closing: null } },
  });
  return driver;
}

const faultsOf = (job: Job) => estimate(job).roofs.flatMap((roof) => roof.faults);

describe('a line on the roof', () => {
  it('takes two clicks, is told, and goes by one undo', () => {
    const driver = traced();
    driver.setOptions({ line: { kind: 'tie-in' } });
    driver.choose('drawLine');
    driver.click([250, 100], 'alt');
    driver.click([250, 220], 'alt');
    expect(roofOf(driver.job()).lines).toEqual([
      { id: 'l1', kind: 'tie-in', from: [250, 100], to: [250, 220] },
    ]);
    expect(driver.said()).toMatchObject({
      wrong: false,
      text: expect.stringContaining('no sheet crosses it') as string,
    });
    expect(faultsOf(driver.job())).toEqual([]);
    const bands = estimate(driver.job()).roofs[0]?.layout?.bands ?? [];
    expect(bands.filter(({ kind }) => kind === 'field')).toHaveLength(2);
    driver.editor.undo();
    expect(roofOf(driver.job()).lines).toEqual([]);
  });

  it('is picked, nudged, turned into another kind and deleted', () => {
    const driver = traced();
    driver.setOptions({ line: { kind: 'valley' } });
    driver.choose('drawLine');
    driver.click([120, 150], 'alt');
    driver.type('10 m < 0');
    const roof = roofOf(driver.job());
    expect(roof.lines[0]?.to).toEqual([220, 150]);
    driver.choose('select');
    driver.click([170, 150]);
    expect(driver.editor.state.get().selection).toEqual([{ kind: 'line', id: 'l1', roof: roof.id }]);
    driver.press('ArrowUp');
    expect(roofOf(driver.job()).lines[0]?.from[1]).toBeCloseTo(150.1, 9);
    driver.editor.run({ kind: 'setLine', roof: roof.id, line: 'l1', fields: { kind: 'phase' } });
    expect(roofOf(driver.job()).lines[0]?.kind).toBe('phase');
    driver.press('Delete');
    expect(roofOf(driver.job()).lines).toEqual([]);
    expect(driver.editor.state.get().selection).toEqual([]);
  });

  it('is refused off the roof and where both ends are one', () => {
    const driver = traced();
    driver.choose('drawLine');
    driver.click([600, 600], 'alt');
    driver.click([700, 600], 'alt');
    expect(driver.said()?.wrong).toBe(true);
    driver.click([150, 150], 'alt');
    driver.click([150, 150], 'alt');
    expect(driver.said()?.text).toContain('one place');
    expect(driver.path()).toBe('drawLine.second');
    expect(roofOf(driver.job()).lines).toEqual([]);
  });
});

describe('a fall', () => {
  it('of the whole roof is one arrow from high to low, with its slope', () => {
    const driver = traced();
    driver.setOptions({ fall: { way: 'roof', ratio: 0.02 } });
    driver.choose('drawFall');
    driver.click([150, 300], 'alt');
    driver.click([150, 200], 'alt');
    expect(roofOf(driver.job()).fall).toEqual({ downhill: 270, ratio: 0.02 });
    driver.editor.undo();
    expect(roofOf(driver.job()).fall).toBeNull();
  });

  it('is given by its low line or its high line as well, along an edge or inside', () => {
    const driver = traced();
    driver.setOptions({ fall: { way: 'roof', ratio: null } });
    driver.choose('drawFall');
    // The L's lowest side, and then its left one, whichever way round its ends are clicked.
    for (const [option, a, b, downhill] of [
      ['lowLine', [100, 100], [400, 100], 270],
      ['lowLine', [400, 100], [100, 100], 270],
      ['highLine', [400, 100], [100, 100], 90],
      ['highLine', [100, 300], [100, 100], 0],
    ] as const) {
      driver.option(option);
      driver.click(a, 'alt');
      driver.click(b, 'alt');
      expect(roofOf(driver.job()).fall?.downhill, option).toBeCloseTo(downhill, 9);
    }
    driver.option('lowLine');
    expect(driver.path()).toBe('drawFall.line');
    driver.option('lowLine');
    expect(driver.path()).toBe('drawFall.idle');
    driver.option('highLine');
    driver.click([150, 150], 'alt');
    driver.click([150, 150], 'alt');
    expect(driver.said()?.wrong).toBe(true);
  });

  it('of a part by its low line runs square to it', () => {
    const driver = traced();
    driver.setOptions({ fall: { way: 'part', ratio: 0.01 } });
    driver.choose('drawFall');
    for (const at of [
      [100, 100],
      [250, 100],
      [250, 220],
      [100, 220],
    ] as const)
      driver.click(at, 'alt');
    driver.press('Enter');
    driver.option('lowLine');
    driver.click([250, 100], 'alt');
    driver.click([250, 220], 'alt');
    expect(roofOf(driver.job()).facets.map(({ downhill, ratio }) => [downhill, ratio])).toEqual([[0, 0.01]]);
  });

  it('of a part is a ring and then its arrow; a later part goes before', () => {
    const driver = traced();
    driver.setOptions({ fall: { way: 'part', ratio: null } });
    driver.choose('drawFall');
    for (const at of [
      [100, 100],
      [250, 100],
      [250, 220],
    ] as const)
      driver.click(at, 'alt');
    driver.press('Enter');
    expect(driver.path()).toBe('drawFall.high');
    driver.press('Backspace');
    expect(driver.path()).toBe('drawFall.idle');
    for (const at of [
      [100, 100],
      [250, 100],
      [250, 220],
    ] as const)
      driver.click(at, 'alt');
    driver.press('Enter');
    driver.click([110, 110], 'alt');
    driver.click([210, 110], 'alt');
    expect(roofOf(driver.job()).facets).toEqual([
      {
        id: 'w1',
        ring: [
          [100, 100],
          [250, 100],
          [250, 220],
        ],
        downhill: 0,
        ratio: null,
      },
    ]);
  });

  it('four ways to a drain is one click; facets replaced are said, and undo brings them back', () => {
    const driver = withDrain();
    driver.setOptions({ fall: { way: 'drain', ratio: 0.02 } });
    driver.choose('drawFall');
    driver.click([300, 150], 'alt');
    expect(driver.said()?.wrong).toBe(true);
    driver.click([180, 180]);
    const { facets } = roofOf(driver.job());
    expect(facets).toHaveLength(6);
    expect(facets.every(({ ratio }) => ratio === 0.02)).toBe(true);
    expect(facets[0]?.downhill).toBeCloseTo(90, 9);
    expect(faultsOf(driver.job())).toEqual([]);
    driver.click([180, 180]);
    expect(driver.said()?.text).toContain(`The ${facets.length} parts drawn before were replaced`);
    driver.editor.undo();
    expect(roofOf(driver.job()).facets).toEqual(facets);
    driver.editor.undo();
    expect(roofOf(driver.job()).facets).toEqual([]);
  });

  it('to a drain follows the drain and the corners of the roof, square to its sides still', () => {
    const driver = withDrain();
    driver.setOptions({ fall: { way: 'drain', ratio: 0.02 } });
    driver.choose('drawFall');
    driver.click([180, 180]);
    const [drain] = Object.values(driver.job().fittings);
    const [corner] = roofOf(driver.job()).outline;
    if (!drain || corner === undefined) throw new Error('no drain or no corner');
    const before = roofOf(driver.job()).facets;
    driver.editor.run({ kind: 'setFitting', fitting: drain.id, fields: { at: [170, 190] } });
    const moved = roofOf(driver.job()).facets;
    expect(moved.map(({ ring }) => ring[2])).toEqual(moved.map(() => [170, 190]));
    expect(moved.map(({ downhill }) => downhill)).toEqual(before.map(({ downhill }) => downhill));
    const [x, y] = driver.job().edges[corner]?.at ?? [NaN, NaN];
    driver.editor.run({ kind: 'moveCorner', edge: corner, at: [x, y - 20] });
    const first = roofOf(driver.job()).facets[0];
    expect(first?.ring[0]).toEqual([x, y - 20]);
    const [from, to] = first?.ring ?? [];
    if (!from || !to) throw new Error('no side');
    const along = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
    expect(first?.downhill).toBeCloseTo(along + 90, 9);
    expect(first?.downhill).not.toBeCloseTo(90, 1);
    expect(faultsOf(driver.job())).toEqual([]);
  });
});

describe('flutes', () => {
  it('are a steel deck’s direction; a place on a top flange only where it is said to be one', () => {
    const driver = traced();
    driver.choose('alongFlute');
    driver.click([120, 120], 'alt');
    driver.click([120, 300], 'alt');
    expect(roofOf(driver.job()).deck).toEqual({
      kind: 'steel',
      flutes: 90,
      pitch: null,
      flange: null,
      rib: null,
    });
    driver.setOptions({ flute: { gives: 'flange' } });
    driver.choose('alongFlute');
    driver.click([120, 120], 'alt');
    driver.click([300, 120], 'alt');
    expect(roofOf(driver.job()).deck).toMatchObject({ flutes: 0, rib: [120, 120] });
    driver.editor.undo();
    expect(roofOf(driver.job()).deck).toMatchObject({ flutes: 90, rib: null });
  });
});

describe('what edges, drains and units ask of the sheets', () => {
  it('is set and taken out again by one command each', () => {
    const driver = withDrain();
    const roof = roofOf(driver.job());
    const edges = roof.outline;
    const before = driver.job();
    driver.editor.run({
      kind: 'setEdges',
      edges,
      fields: { clear: 300, perimeter: { sheets: 2, width: 1000 } },
    });
    const laid = estimate(driver.job()).roofs[0]?.layout;
    expect(laid?.bands.filter(({ kind }) => kind === 'edge').length).toBeGreaterThan(0);
    driver.editor.run({ kind: 'setEdges', edges, fields: { clear: null, perimeter: null } });
    expect(driver.job().edges).toEqual(before.edges);
    driver.editor.run({ kind: 'setFitting', fitting: 'f1', fields: { clear: 450, blocks: 'live' } });
    expect(driver.job().fittings.f1).toMatchObject({ clear: 450, blocks: 'live' });
    driver.editor.run({ kind: 'setFitting', fitting: 'f1', fields: { clear: null, blocks: null } });
    expect(driver.job().fittings).toEqual(before.fittings);
    expect(
      driver.editor.run({ kind: 'setEdges', edges, fields: { perimeter: { sheets: 1, width: 0 } } }),
    ).toContain('Type more than zero');
    expect(driver.editor.run({ kind: 'removeLine', roof: roof.id, line: 'l9' })).toContain(
      'There is no line',
    );
  });

  it('moves with the roof, and the journal brings all of it back', () => {
    const driver = withDrain();
    const { id } = roofOf(driver.job());
    driver.choose('drawLine');
    driver.click([120, 150], 'alt');
    driver.click([220, 150], 'alt');
    driver.editor.run({ kind: 'pinEndLap', roof: id, at: [200, 200], instead: null });
    driver.editor.run({ kind: 'pinEndLap', roof: id, at: [210, 200], instead: 0 });
    driver.editor.run({ kind: 'pinEndLap', roof: id, at: [300, 110], instead: null });
    driver.editor.run({ kind: 'unpinEndLap', roof: id, index: 1 });
    driver.editor.pick([{ kind: 'roof', id, roof: id }]);
    driver.choose('select');
    driver.press('ArrowUp');
    const roof = roofOf(driver.job());
    expect(roof.lines[0]?.from[1]).toBeCloseTo(150.1, 9);
    expect(roof.laying.pins).toEqual([[210, expect.closeTo(200.1, 9)]]);
    expect(replayJournal(driver.journal(), () => undefined)?.editor.state.get().job).toEqual(driver.job());
    driver.editor.run({ kind: 'unpinEndLap', roof: id, index: 0 });
    expect(roofOf(driver.job()).laying).not.toHaveProperty('pins');
  });
});

describe('an end lap under the hand', () => {
  const seamsOf = (driver: Driver) => {
    const [roof] = estimate(driver.job()).roofs;
    if (!roof?.seams) throw new Error('the roof is not laid');
    return { seams: roof.seams, mmPerPoint: roof.mmPerPoint };
  };

  it('goes along its course by arrow keys, is pinned there, and is one pin however often it is moved', () => {
    const driver = longRoof();
    const { id } = roofOf(driver.job());
    const lap = seamsOf(driver).seams.endLaps[0];
    if (!lap) throw new Error('a course of 60 m has an end lap');
    driver.choose('select');
    driver.editor.pick([{ kind: 'lap', id: lap.id, roof: id }]);
    driver.press('ArrowUp');
    expect(roofOf(driver.job()).laying.pins).toBeUndefined();
    driver.press('ArrowRight');
    driver.press('ArrowRight');
    const pins = roofOf(driver.job()).laying.pins ?? [];
    expect(pins).toHaveLength(1);
    expect(pins[0]?.[0]).toBeCloseTo(lap.from[0] / 100 + 0.2, 6);
    const { seams, mmPerPoint } = seamsOf(driver);
    expect(lapsAtPins(seams, pins, mmPerPoint)[0]?.from[0]).toBeCloseTo(lap.from[0] + 20, 1);
    driver.editor.undo();
    driver.editor.undo();
    expect(roofOf(driver.job()).laying.pins).toBeUndefined();
  });

  it('that can stand there no longer is said to, and the pin is not lost', () => {
    const driver = longRoof();
    const { id } = roofOf(driver.job());
    driver.editor.run({ kind: 'pinEndLap', roof: id, at: [101, 130], instead: null });
    const { seams, mmPerPoint } = seamsOf(driver);
    expect(lapsAtPins(seams, roofOf(driver.job()).laying.pins ?? [], mmPerPoint)).toEqual([null]);
  });

  it('says which rules it breaks: those of now that were not there before', () => {
    const driver = longRoof();
    const { id } = roofOf(driver.job());
    const before = estimate(driver.job()).findings;
    // Two courses with their end laps in one line: four sheets would meet.
    driver.editor.run([
      { kind: 'pinEndLap', roof: id, at: [300, 110], instead: null },
      { kind: 'pinEndLap', roof: id, at: [300, 140], instead: null },
    ]);
    const broken = newFindings(before, estimate(driver.job()).findings);
    expect(broken.map(({ rule }) => rule)).toContain('end-lap-stagger');
    expect(newFindings(before, before)).toEqual([]);
  });

  it('and a direction are kept by the search that is told to', () => {
    const driver = longRoof();
    const roof = roofOf(driver.job());
    driver.editor.run({
      kind: 'setRoof',
      roof: roof.id,
      fields: { laying: { ...roof.laying, direction: 90, keep: ['direction'], pins: [[130, 150]] } },
    });
    const started = searchRoof(driver.job(), roof.id);
    if ('faults' in started) throw new Error('the roof cannot be searched');
    let step = started.search.next();
    while (!step.done) step = started.search.next();
    expect(step.value.best.map(({ rules }) => rules.direction)).toEqual(step.value.best.map(() => 90));
    const best = step.value.best[0];
    if (!best) throw new Error('nothing was found');
    expect(layingOf(best, roofOf(driver.job()).laying)).toMatchObject({
      keep: ['direction'],
      pins: [[130, 150]],
    });
  });
});
