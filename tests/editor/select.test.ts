import { beforeEach, describe, expect, it } from 'vitest';
import { L_SHAPE, startDriver, traceRing } from './driver';
import type { Driver } from './driver';

let driver: Driver;
beforeEach(() => {
  driver = startDriver();
  traceRing(driver, L_SHAPE);
});

const at = (edge: string) => driver.job().edges[edge]?.at;

describe('picking', () => {
  it('prefers a corner to its edge and an edge to its roof', () => {
    driver.click([102, 101]);
    expect(driver.editor.state.get().selection).toEqual([{ kind: 'corner', id: 'e1', roof: 'r1' }]);
    driver.click([300, 102]);
    expect(driver.editor.state.get().selection).toEqual([{ kind: 'edge', id: 'e1', roof: 'r1' }]);
    driver.click([160, 300]);
    expect(driver.editor.state.get().selection).toEqual([{ kind: 'roof', id: 'r1', roof: 'r1' }]);
    driver.click([700, 700]);
    expect(driver.editor.state.get().selection).toEqual([]);
  });

  it('adds and takes away with Shift', () => {
    driver.click([300, 100]);
    driver.down([100, 300], 'shift');
    driver.up([100, 300]);
    expect(driver.editor.state.get().selection.map((p) => p.id)).toEqual(['e1', 'e6']);
    driver.down([300, 100], 'shift');
    driver.up([300, 100]);
    expect(driver.editor.state.get().selection.map((p) => p.id)).toEqual(['e6']);
  });

  it('neither makes an entry nor clears what can be redone', () => {
    driver.editor.undo();
    driver.click([700, 700]);
    expect(driver.editor.state.get().redoLabel).toBe('Trace roof');
  });
});

describe('dragging', () => {
  it('moves a corner as one entry, whatever the hand did on the way', () => {
    driver.down([400, 220]);
    expect(driver.path()).toBe('select.pointing');
    driver.move([401, 221]);
    expect(driver.path()).toBe('select.pointing');
    driver.move([450, 300], 'alt');
    expect(driver.path()).toBe('select.dragging');
    driver.move([420, 240], 'alt');
    driver.up([420, 240]);
    expect(driver.path()).toBe('select.idle');
    expect(at('e3')).toEqual([420, 240]);
    expect(driver.editor.state.get().undoLabel).toBe('Move corner');
    driver.editor.undo();
    expect(at('e3')).toEqual([400, 220]);
    expect(driver.editor.state.get().undoLabel).toBe('Trace roof');
  });

  it('puts it back with Escape and leaves no entry', () => {
    const before = driver.job();
    driver.down([400, 220]);
    driver.move([450, 300], 'alt');
    expect(driver.job()).not.toBe(before);
    driver.press('Escape');
    expect(driver.path()).toBe('select.idle');
    expect(driver.job()).toBe(before);
    expect(driver.editor.state.get().undoLabel).toBe('Trace roof');
  });

  it('moves an edge sideways only', () => {
    driver.down([300, 100]);
    driver.move([340, 80], 'alt');
    driver.up([340, 80]);
    expect(at('e1')).toEqual([100, 80]);
    expect(at('e2')).toEqual([400, 80]);
  });
});

describe('moving a roof', () => {
  it('takes its openings and fittings along, once it is picked', () => {
    driver.choose('placeFitting');
    driver.click([150, 150], 'alt');
    driver.press('Escape');
    driver.click([700, 700]);
    driver.down([200, 180]);
    driver.move([210, 190]);
    driver.up([210, 190]);
    expect(at('e1')).toEqual([100, 100]);
    driver.click([200, 180]);
    driver.down([200, 180]);
    driver.move([210, 190]);
    driver.up([210, 190]);
    expect(at('e1')).toEqual([110, 110]);
    expect(driver.job().fittings.f1?.at).toEqual([160, 160]);
    driver.editor.undo();
    expect(driver.job().fittings.f1?.at).toEqual([150, 150]);
  });
});

describe('changing what is picked', () => {
  it('puts a corner in by double-click; both edges keep the kind', () => {
    driver.editor.run({ kind: 'setEdges', edges: ['e1'], fields: { kind: 'gutter', upstand: 0 } });
    driver.double([250, 101]);
    const [roof] = Object.values(driver.job().roofs);
    expect(roof?.outline).toEqual(['e1', 'e7', 'e2', 'e3', 'e4', 'e5', 'e6']);
    expect(driver.job().edges.e7).toMatchObject({ at: [250, 100], kind: 'gutter', upstand: 0 });
  });

  it('takes a corner out, but an edge only by its corners', () => {
    driver.click([250, 220]);
    driver.press('Delete');
    expect(Object.values(driver.job().roofs)[0]?.outline).toHaveLength(5);
    driver.click([300, 100]);
    driver.press('Delete');
    expect(driver.said()?.wrong).toBe(true);
    expect(Object.values(driver.job().roofs)[0]?.outline).toHaveLength(5);
  });

  it('sets an edge’s length by typing; the far side moves along', () => {
    driver.click([300, 100]);
    driver.type('36 m');
    expect(at('e2')).toEqual([460, 100]);
    expect(at('e3')).toEqual([460, 220]);
    expect(at('e1')).toEqual([100, 100]);
  });

  it('nudges by 10 mm', () => {
    driver.click([400, 220]);
    driver.press('ArrowRight');
    expect(at('e3')?.[0]).toBeCloseTo(400.1, 9);
  });
});

describe('openings and fittings', () => {
  it('draws a rectangle by two corners, and by typed sides', () => {
    driver.choose('addOpening');
    driver.click([120, 120], 'alt');
    expect(driver.path()).toBe('addOpening.placingOpposite');
    driver.click([160, 150], 'alt');
    expect(driver.path()).toBe('addOpening.idle');
    driver.click([180, 120], 'alt');
    driver.type('1200 x 900');
    const openings = Object.values(driver.job().openings);
    expect(openings.map((one) => one.name)).toEqual(['Curb 1', 'Curb 2']);
    const second = openings[1]?.ring.map((id) => driver.job().edges[id]?.at);
    expect(second).toEqual([
      [180, 120],
      [192, 120],
      [192, 129],
      [180, 129],
    ]);
  });

  it('refuses an opening outside every roof', () => {
    driver.choose('addOpening');
    driver.click([700, 700], 'alt');
    expect(driver.path()).toBe('addOpening.idle');
    expect(driver.said()).toEqual({ text: expect.stringContaining('inside an outline'), wrong: true });
  });

  it('moves an opening by its inside', () => {
    driver.choose('addOpening');
    driver.click([120, 120], 'alt');
    driver.click([160, 150], 'alt');
    driver.press('Escape');
    driver.down([140, 135]);
    driver.move([150, 145]);
    driver.up([150, 145]);
    const ring = Object.values(driver.job().openings)[0]?.ring;
    expect(ring?.map((id) => at(id))).toEqual([
      [130, 130],
      [170, 130],
      [170, 160],
      [130, 160],
    ]);
  });

  it('stands a scupper on the nearest edge and a drain inside', () => {
    driver.setOptions({ fitting: { kind: 'scupper', size: 200 } });
    driver.choose('placeFitting');
    driver.click([300, 108], 'alt');
    driver.setOptions({ fitting: { kind: 'drain', size: 100 } });
    driver.click([150, 150], 'alt');
    driver.click([700, 700], 'alt');
    expect(Object.values(driver.job().fittings).map(({ kind, at: spot }) => [kind, spot])).toEqual([
      ['scupper', [300, 100]],
      ['drain', [150, 150]],
    ]);
    expect(driver.said()?.wrong).toBe(true);
  });
});
