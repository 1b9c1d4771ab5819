// Labels on a map, held by points sown in them: a dull second way that knows no parting lines.
import { describe, expect, it } from 'vitest';
import { boxesRound, cornersOf, LabelRoom, sharesFrom, type LabelBox } from '../../../shared/packs/labelRoom';
import { seeded } from '../../support/random';

/** Whether a point lies in a box, by its place along and up the box. */
function holds({ middle, width, height, angle }: LabelBox, [x, y]: readonly [number, number]): boolean {
  const turn = (angle * Math.PI) / 180;
  const [dx, dy] = [x - middle[0], y - middle[1]];
  const along = dx * Math.cos(turn) + dy * Math.sin(turn);
  const up = dy * Math.cos(turn) - dx * Math.sin(turn);
  return Math.abs(along) < width / 2 - 1e-6 && Math.abs(up) < height / 2 - 1e-6;
}

/** A box's corners and points all through it. */
function sown(box: LabelBox): (readonly [number, number])[] {
  const [a, b, , d] = cornersOf(box);
  const points: [number, number][] = [];
  for (let i = 0; i <= 20; i++)
    for (let k = 0; k <= 20; k++)
      points.push([
        a[0] + ((b[0] - a[0]) * i + (d[0] - a[0]) * k) / 20,
        a[1] + ((b[1] - a[1]) * i + (d[1] - a[1]) * k) / 20,
      ]);
  return points;
}

const meets = (a: LabelBox, b: LabelBox) =>
  sown(a).some((point) => holds(b, point)) || sown(b).some((point) => holds(a, point));

describe('room for labels', () => {
  it('none of 40 labels at any angle stands on another or beyond the frame, on 60 maps', () => {
    let put = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const luck = seeded(seed);
      const room = new LabelRoom([0, 0], [300, 200]);
      const boxes: LabelBox[] = [];
      for (let k = 0; k < 40; k++) {
        const box = (): LabelBox => ({
          middle: [luck.between(0, 300), luck.between(0, 200)],
          width: luck.between(8, 50),
          height: luck.between(6, 14),
          angle: luck.next() < 0.5 ? luck.whole(0, 1) * 90 : luck.between(-90, 90),
        });
        const own = room.put([box(), box(), box()]);
        if (!own) continue;
        expect(
          boxes.some((other) => meets(own, other)),
          `map ${seed}`,
        ).toBe(false);
        for (const [x, y] of cornersOf(own))
          expect(x >= 0 && x <= 300 && y >= 0 && y <= 200, `map ${seed}`).toBe(true);
        boxes.push(own);
      }
      put += boxes.length;
    }
    expect(put).toBeGreaterThan(1000);
  });
  it('takes the first wish that is free, keeps off lines where it can, and stands on its own', () => {
    const at = (x: number): LabelBox => ({ middle: [x, 50], width: 10, height: 10, angle: 0 });
    const room = new LabelRoom([0, 0], [100, 100]);
    room.take(cornersOf(at(20)));
    room.spare(
      [
        [40, 0],
        [40, 100],
      ],
      'W1',
    );
    expect(room.put([at(20), at(40), at(60)])).toEqual(at(60));
    expect(room.put([at(20), at(40), at(60)], 'W1')).toEqual(at(40));
    expect(room.put([at(20), at(40), at(60)])).toBeNull();
  });
  it('stands on a spared line rather than nowhere', () => {
    const room = new LabelRoom([0, 0], [100, 100]);
    room.spare(
      [
        [0, 50],
        [100, 50],
      ],
      'W1',
    );
    const box = { middle: [50, 50], width: 10, height: 10, angle: 0 } as const;
    expect(room.put([box])).toEqual(box);
  });
  it('asks for shares near the wish first and within the ends, and for boxes that leave the spot free', () => {
    const shares = sharesFrom(0.5, 0.2, 0.8);
    const far = shares.map((share) => Math.abs(share - 0.5));
    far.forEach((each, k) => expect(each).toBeGreaterThanOrEqual((far[k - 1] ?? 0) - 1e-9));
    expect(Math.min(...shares)).toBeGreaterThanOrEqual(0.2);
    expect(Math.max(...shares)).toBeLessThanOrEqual(0.8);
    for (const box of boxesRound([0, 0], 40, 12)) expect(holds(box, [0, 0])).toBe(false);
  });
});
