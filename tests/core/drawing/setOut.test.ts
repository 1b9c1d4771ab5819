// Where things lie from a corner that is really there.
import { describe, expect, it } from 'vitest';
import { namedCorners, planHeading, setDownPoint, setOutFrom } from '../../../core/drawing/setOut';
import { frameOf } from '../../../core/sheets/frame';
import type { Sheet } from '../../../core/sheets/types';
import { built, rectangle, roofSpec } from '../../support/roofs';

const corners = namedCorners(built(roofSpec(rectangle(30_000, 12_000))), 'B');

describe('corners', () => {
  it('are called by the roof’s letter and counted round the outline', () =>
    expect(corners.map(({ name, at }) => [name, ...at])).toEqual([
      ['B1', 0, 0],
      ['B2', 30_000, 0],
      ['B3', 30_000, 12_000],
      ['B4', 0, 12_000],
    ]));
});

describe('a place on the roof', () => {
  it('is measured from the nearest corner, along the courses and square to them', () => {
    const { corner, along, across } = setOutFrom(corners, frameOf(0), [27_000, 2_880]);
    expect([corner.name, along, across]).toEqual(['B2', -3_000, 2_880]);
  });
  it('where courses run up the plan, along is up and across is left', () => {
    const { corner, along, across } = setOutFrom(corners, frameOf(90), [27_000, 2_880]);
    expect([corner.name, along, across]).toEqual(['B2', 2_880, 3_000]);
  });
  it('on courses askew, comes back to the same point', () => {
    const frame = frameOf(30);
    const { corner, along, across } = setOutFrom(corners, frame, [4_000, 3_000]);
    expect(corner.at[0] + along * frame.cos - across * frame.sin).toBeCloseTo(4_000, 6);
    expect(corner.at[1] + along * frame.sin + across * frame.cos).toBeCloseTo(3_000, 6);
  });
});

describe('the corner that a sheet is set down at', () => {
  const sheet: Pick<Sheet, 'corners'> = {
    corners: [
      [0, 0],
      [9_000, 0],
      [9_000, 3_000],
      [0, 3_000],
    ],
  };

  it('lies at the end where unrolling starts, on the lower course’s side', () => {
    expect(setDownPoint(sheet, 0)).toEqual([0, 0]);
    expect(setDownPoint(sheet, 180)).toEqual([9_000, 0]);
  });
});

it.each([
  [0, 'right'],
  [90, 'up'],
  [225, 'down and left'],
  [-90, 'down'],
  [359, 'right'],
])('%d° is said as %s', (degrees, words) => expect(planHeading(degrees)).toBe(words));
