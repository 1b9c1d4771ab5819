// In: runs that may be joined, a roll and its lap, a bound on rolls, a solver. Out: the bound, or one roll more where
// that is proved. Promise: what is proved holds; not proving it says nothing.
//
// The linear program over groups (column generation), where each remainder has a price of its own. The worthiest
// group of k rolls is found by filling a coarse ruler: remainders are rounded down on it, so that every group that
// fits still fits, and prices under which no group is worth more than its rolls prove their total. Between rounds
// the prices go only part of the way from the best known to the program's (Pessoa, Sadykov, Uchoa and Vanderbeck
// 2018).
import { leastPieces, priceRemainders, remainderOf, type RemainderPrices } from '../bounds';
import type { OpenProgram, ProgramColumn, Solver } from './solver';

/** Rolls in the largest group that is looked at on its own; larger ones are held by their share. */
const MOST_ROLLS = 3;
/** Steps of one filling, by which the ruler is made coarser for more remainders; of few a finer one is tried too. */
const FILL_STEPS = 6_000_000;
const FINE_STEPS = 24_000_000;
const FEW_REMAINDERS = 100;
const MOST_ROUNDS = 150;
const MOST_REMAINDERS = 400;
/** The program was never seen to prove more than this above the prices it starts from. */
const MOST_GAIN = 0.2;
/** What is kept of the best prices from round to round. */
const KEPT = 0.7;
/** Groups taken from one filling for each number of rolls. */
const MOST_TAKEN = 20;
/** Sums of prices may be off by far less than this; the proof must exceed it. */
const MARGIN = 2 ** -20;

/** The bound on rolls, or one more where that is proved. */
export function raisedBound(
  lengths: readonly number[],
  bound: number,
  rules: { readonly roll: number; readonly lap: number },
  solver: Solver,
): number {
  const { roll, lap } = rules;
  const rests = lengths.map((length) => remainderOf(length, roll, lap));
  const kept = lengths.reduce((sum, length) => sum + leastPieces(length, roll, lap) - 1, 0);
  const known = priceRemainders(Float64Array.from(rests).sort(), roll, lap);
  const hopeless = bound - kept - known.worth > MOST_GAIN;
  if (rests.length < 2 || rests.length > MOST_REMAINDERS || hopeless) return bound;
  const steps = lengths.length <= FEW_REMAINDERS ? [FILL_STEPS, FINE_STEPS] : [FILL_STEPS];
  const proved = steps.some((most) =>
    needMoreThan(rests, bound - kept, rulerFor(rests, roll, lap, most), known, solver),
  );
  return proved ? bound + 1 : bound;
}

function needMoreThan(
  rests: readonly number[],
  rolls: number,
  ruler: Ruler,
  known: RemainderPrices,
  solver: Solver,
): boolean {
  const most = rests.map((rest) => Math.min(1, rest * ruler.share));
  let best = rests.map((rest, i) =>
    Math.max(0, Math.min(most[i] as number, known.alpha * rest + known.beta)),
  );
  let proved = 0;
  const program = openWith(most, solver);
  try {
    let found: readonly number[] | null = null;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const prices: readonly number[] = found
        ? best.map((price, i) => KEPT * price + (1 - KEPT) * ((found as readonly number[])[i] as number))
        : best;
      const filled = fillRuler(ruler, prices, round);
      const scale = prices.reduce(
        (greatest, price, i) => Math.max(greatest, price / (most[i] as number)),
        Math.max(1, filled.excess),
      );
      const worth = prices.reduce((sum, price) => sum + price, 0) / scale;
      if (worth > rolls + MARGIN) return true;
      if (worth > proved) {
        proved = worth;
        best = prices.map((price) => price / scale);
      }
      const fresh = filled.groups.filter((group) => !found || group.cost < worthOf(group, found) - MARGIN);
      if (fresh.length === 0 && found) {
        // Prices half-way show nothing new: the program's own decide.
        const own = fillRuler(ruler, found, round);
        const more = own.groups.filter((group) => group.cost < worthOf(group, found as readonly number[]));
        if (own.excess <= 1 + MARGIN || more.length === 0) return false;
        program.add(more);
      } else program.add(fresh);
      const solved = program.solve();
      if (!solved || solved.value <= rolls) return false;
      found = solved.prices.map((price) => Math.max(0, price));
    }
    return false;
  } finally {
    program.close();
  }
}

const roomOf = (roll: number, lap: number, rolls: number) => rolls * roll - (rolls - 1) * lap;

const worthOf = ({ rows }: ProgramColumn, prices: readonly number[]) =>
  rows.reduce((sum, i) => sum + (prices[i] as number), 0);

/** Each remainder alone, at the most that it is worth. */
function openWith(most: readonly number[], solver: Solver): OpenProgram {
  const program = solver.open(most.map(() => 1));
  program.add(most.map((cost, i) => ({ cost, rows: [i], values: [1] })));
  return program;
}

interface Ruler {
  /** Marks that each remainder takes, and those there are on so many rolls. */
  readonly marks: readonly number[];
  readonly room: readonly number[];
  readonly worth: Float64Array;
  readonly taken: Uint8Array;
  /** What a step of length costs at least in groups of more rolls. */
  readonly share: number;
  /** A stride that visits all remainders. */
  readonly stride: number;
}

function rulerFor(rests: readonly number[], roll: number, lap: number, steps: number): Ruler {
  const n = rests.length;
  const mark = Math.max(1, Math.ceil((n * roomOf(roll, lap, MOST_ROLLS)) / steps));
  const room = Array.from({ length: MOST_ROLLS }, (_, k) => Math.floor(roomOf(roll, lap, k + 1) / mark));
  const length = (room[MOST_ROLLS - 1] as number) + 1;
  let stride = Math.max(1, Math.round(n * GOLDEN));
  while (commonDivisor(stride, n) > 1) stride++;
  return {
    marks: rests.map((rest) => Math.floor(rest / mark)),
    room,
    worth: new Float64Array(length),
    taken: new Uint8Array(n * length),
    share: MOST_ROLLS / roomOf(roll, lap, MOST_ROLLS),
    stride,
  };
}

const GOLDEN = 0.618;

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}

/** The most that a group is worth for each roll, and groups worth more than their rolls: the worthiest among all
 * remainders, and among the first of them in an order that changes from round to round. */
function fillRuler(
  { marks, room, worth, taken, stride }: Ruler,
  prices: readonly number[],
  round: number,
): { readonly excess: number; readonly groups: readonly ProgramColumn[] } {
  const n = marks.length;
  const length = worth.length;
  const order = marks.map((_, s) => (s * stride + round * ROUND_STRIDE) % n);
  const after = room.map(() => new Float64Array(n));
  worth.fill(0);
  taken.fill(0);
  order.forEach((i, s) => {
    const price = prices[i] as number;
    const own = marks[i] as number;
    const row = s * length;
    if (price > 0)
      for (let at = length - 1; at >= own; at--) {
        const total = (worth[at - own] as number) + price;
        if (total > (worth[at] as number)) {
          worth[at] = total;
          taken[row + at] = 1;
        }
      }
    room.forEach((marksThere, k) => ((after[k] as Float64Array)[s] = worth[marksThere] as number));
  });
  let excess = 0;
  const groups: ProgramColumn[] = [];
  room.forEach((marksThere, k) => {
    const worths = after[k] as Float64Array;
    excess = Math.max(excess, (worths[n - 1] as number) / (k + 1));
    let left = MOST_TAKEN;
    for (let top = n - 1; top >= 0 && left > 0 && (worths[top] as number) > k + 1; top--) {
      if (top < n - 1 && taken[top * length + marksThere] === 0) continue;
      const rows: number[] = [];
      let at = marksThere;
      for (let s = top; s >= 0; s--) {
        if (taken[s * length + at] === 0) continue;
        const i = order[s] as number;
        rows.push(i);
        at -= marks[i] as number;
      }
      groups.push({ cost: k + 1, rows, values: rows.map(() => 1) });
      left--;
    }
  });
  return { excess, groups };
}

const ROUND_STRIDE = 7;
