// In: runs whose pieces found no places that keep their joints apart. Out: all of them placed, or null. Promise: course
// by course; a run whose pieces find no place gets one more piece: on a roll that has room, in exchange with a length
// that lies whole on another roll, or on a new roll; and where that does not help it is cut anew. What only advises
// where a lap lies gives way last of all, and neighbouring end laps never do.
import { freeCut } from './freeCut';
import {
  keptWithin,
  orders,
  slide,
  type Part,
  type PlacedRun,
  type RunInPlace,
  type StaggerRules,
  type Stretch,
} from './slide';

export interface Hands {
  /** Of neighbouring laps alone, and with the course's own advised zones. */
  readonly beside: (run: RunInPlace) => readonly Stretch[];
  readonly forbidden: (run: RunInPlace) => readonly Stretch[];
  readonly put: (i: number, placed: PlacedRun) => void;
  /** Adds a run's pieces to what their rolls have left, or takes them away again. */
  readonly giveBack: (i: number, by: 1 | -1) => void;
  readonly chosen: PlacedRun[];
}

/** Rolls that have room, and lengths that may change their roll, that one run is tried with. */
const MOST_ROOMY = 6;
const MOST_EXCHANGED = 12;

/** A length that lies whole on a roll, and the roll it goes to. */
interface Moved {
  readonly run: number;
  readonly to: number;
}

export function cutAnew(
  runs: readonly RunInPlace[],
  parts: (readonly Part[])[],
  jointed: readonly number[],
  slack: number[],
  rules: StaggerRules,
  { beside, forbidden, put, giveBack, chosen }: Hands,
): { readonly placed: readonly PlacedRun[]; readonly rolls: number } | null {
  const whole = new WholeLengths(parts);
  for (const i of jointed) {
    const run = runs[i] as RunInPlace;
    const own = parts[i] as readonly Part[];
    giveBack(i, 1);
    const keptOff = [keptWithin(run, forbidden(run)), keptWithin(run, beside(run))];
    let placed: PlacedRun | null = null;
    for (const kept of keptOff) {
      placed = inOrder(run, own, kept, slack, rules) ?? onRoomy(run, own, kept, slack, rules);
      if (placed) break;
      const exchange = whole.exchange(run, own, kept, slack, rules);
      if (exchange) {
        const { length } = whole.move(exchange.moved, slack);
        chosen[exchange.moved.run] = [{ roll: exchange.moved.to, length }];
        placed = exchange.placed;
        break;
      }
      placed = onNewRoll(run, own, kept, slack, rules);
      if (placed) break;
      const lengths = freeCut(run, kept, rules);
      if (lengths) {
        placed = onFullest(lengths, slack, rules.roll);
        break;
      }
    }
    if (!placed) return null;
    put(i, placed);
  }
  return { placed: chosen, rolls: slack.length };
}

/** A run's own pieces, those of its rolls in some order. */
function inOrder(
  run: RunInPlace,
  own: readonly Part[],
  kept: readonly Stretch[],
  slack: readonly number[],
  rules: StaggerRules,
): PlacedRun | null {
  for (const order of orders(own, run.course % 2 === 0)) {
    const placed = slide(run, order, kept, (roll) => slack[roll] as number, rules);
    if (placed) return placed;
  }
  return null;
}

/** A run's own pieces and one more, as short as may be. */
function withOneMore(
  run: RunInPlace,
  own: readonly Part[],
  roll: number,
  kept: readonly Stretch[],
  room: (roll: number) => number,
  rules: StaggerRules,
): PlacedRun | null {
  const all = own.reduce((sum, part) => sum + room(part.roll), room(roll));
  if (all < run.length + own.length * rules.lap) return null;
  for (const order of orders(own, run.course % 2 === 0))
    for (let at = 0; at <= order.length; at++) {
      const more = [...order.slice(0, at), { roll, length: rules.least }, ...order.slice(at)];
      const placed = slide(run, more, kept, room, rules);
      if (placed) return placed;
    }
  return null;
}

/** On the roll whose room is the least that will do. */
function onRoomy(
  run: RunInPlace,
  own: readonly Part[],
  kept: readonly Stretch[],
  slack: readonly number[],
  rules: StaggerRules,
): PlacedRun | null {
  const left = (roll: number) => slack[roll] as number;
  const roomy: number[] = [];
  for (let roll = 0; roll < slack.length; roll++)
    if (left(roll) >= rules.least && own.every((part) => part.roll !== roll)) roomy.push(roll);
  roomy.sort((a, b) => left(a) - left(b));
  for (const roll of roomy.slice(0, MOST_ROOMY)) {
    const placed = withOneMore(run, own, roll, kept, left, rules);
    if (placed) return placed;
  }
  return null;
}

function onNewRoll(
  run: RunInPlace,
  own: readonly Part[],
  kept: readonly Stretch[],
  slack: number[],
  rules: StaggerRules,
): PlacedRun | null {
  const placed = withOneMore(run, own, slack.length, kept, (roll) => slack[roll] ?? rules.roll, rules);
  if (placed) slack.push(rules.roll);
  return placed;
}

/** Each piece on the roll that it leaves the least of, or on a new one. */
function onFullest(lengths: readonly number[], slack: number[], most: number): PlacedRun {
  const left = [...slack];
  const placed = lengths.map((length) => {
    let roll = -1;
    left.forEach((room, k) => {
      if (room >= length && (roll < 0 || room < (left[roll] as number))) roll = k;
    });
    if (roll < 0) roll = left.push(most) - 1;
    left[roll] = (left[roll] as number) - length;
    return { roll, length };
  });
  while (slack.length < left.length) slack.push(most);
  return placed;
}

/** The runs that lie whole on one roll, the shortest first. */
class WholeLengths {
  private readonly byLength: readonly number[];

  constructor(private readonly parts: (readonly Part[])[]) {
    this.byLength = parts
      .flatMap((list, k) => (list.length === 1 ? [k] : []))
      .sort((a, b) => this.at(a).length - this.at(b).length || a - b);
  }

  /** A whole length goes to a roll of the run's pieces, and the run gets a piece where the length was. */
  exchange(
    run: RunInPlace,
    own: readonly Part[],
    kept: readonly Stretch[],
    slack: readonly number[],
    rules: StaggerRules,
  ): { readonly moved: Moved; readonly placed: PlacedRun } | null {
    const left = (roll: number) => slack[roll] as number;
    // With more room than any exchange gives.
    if (!withOneMore(run, own, slack.length, kept, (roll) => slack[roll] ?? rules.roll, rules)) return null;
    const rolls = new Set(own.map((part) => part.roll));
    const tried = new Set<string>();
    for (const to of rolls) {
      let looked = 0;
      for (const k of this.byLength) {
        const { roll, length } = this.at(k);
        if (left(to) - length < rules.least) break;
        const room = left(roll) + length;
        if (room < rules.least || rolls.has(roll)) continue;
        const key = `${to} ${length} ${room}`;
        if (tried.has(key)) continue;
        tried.add(key);
        if (++looked > MOST_EXCHANGED) break;
        const then = (of: number) => (of === to ? left(to) - length : of === roll ? room : left(of));
        const placed = withOneMore(run, own, roll, kept, then, rules);
        if (placed) return { moved: { run: k, to }, placed };
      }
    }
    return null;
  }

  /** Moves a length; what it leaves and what it takes are booked. */
  move({ run, to }: Moved, slack: number[]): Part {
    const { roll, length } = this.at(run);
    slack[roll] = (slack[roll] as number) + length;
    slack[to] = (slack[to] as number) - length;
    const moved = { roll: to, length };
    this.parts[run] = [moved];
    return moved;
  }

  private at(run: number): Part {
    return (this.parts[run] as readonly Part[])[0] as Part;
  }
}
