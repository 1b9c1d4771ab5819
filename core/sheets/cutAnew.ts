// In: runs whose pieces found no places that keep their joints apart. Out: all of them placed, or null. Promise: course
// by course; a run whose pieces find no place is given one more piece in exchange with a length that lies whole on
// another roll, and where that does not help it is cut anew out of what rolls have left or out of new ones.
import { freeCut } from './freeCut';
import {
  disjoint,
  orders,
  slide,
  type Option,
  type Part,
  type PlacedRun,
  type RunInPlace,
  type StaggerRules,
  type Stretch,
} from './slide';

export interface Hands {
  /** Of neighbouring end laps alone, and with the course's own zones. */
  readonly beside: (run: RunInPlace) => readonly Stretch[];
  readonly forbidden: (run: RunInPlace) => readonly Stretch[];
  readonly take: (i: number, option: Option) => () => void;
  readonly chosen: PlacedRun[];
}

/** Course by course: a run whose pieces find no place gives them back and is cut anew, out of what rolls have left
 * or out of new ones. */
export function cutAnew(
  runs: readonly RunInPlace[],
  parts: (readonly Part[])[],
  jointed: readonly number[],
  slack: number[],
  rules: StaggerRules,
  { beside, forbidden, take, chosen }: Hands,
): { readonly placed: readonly PlacedRun[]; readonly rolls: number } | null {
  for (const i of jointed) {
    const run = runs[i] as RunInPlace;
    const own = parts[i] as readonly Part[];
    const kept = disjoint(forbidden(run));
    const order = orders(own, run.course % 2 === 0)
      .map((pieces) => slide(run, pieces, kept, slack, rules))
      .find((option) => option !== null);
    if (order) {
      take(i, order);
      continue;
    }
    const exchange = exchanged(run, i, parts, kept, slack, rules);
    if (exchange) {
      const { moved, option, changes } = exchange;
      for (const [roll, by] of changes) slack[roll] = (slack[roll] as number) + by;
      if (moved) {
        parts[moved.run] = [moved.part];
        chosen[moved.run] = [moved.part];
      }
      take(i, option);
      continue;
    }
    for (const part of own) slack[part.roll] = (slack[part.roll] as number) + part.length;
    // What only advises where a lap lies gives way; neighbouring end laps never do.
    const lengths = freeCut(run, forbidden(run), rules) ?? freeCut(run, beside(run), rules);
    if (!lengths) return null;
    const cut = lengths.map((length) => {
      let roll = -1;
      slack.forEach((room, k) => {
        if (room >= length && (roll < 0 || room < (slack[roll] as number))) roll = k;
      });
      if (roll < 0) roll = slack.push(rules.roll) - 1;
      slack[roll] = (slack[roll] as number) - length;
      return { roll, length };
    });
    let start = run.from;
    const centres = lengths.slice(0, -1).map((length) => {
      start += length - rules.lap;
      return start + rules.lap / 2;
    });
    take(i, { parts: cut, centres, grown: new Map() });
  }
  return { placed: chosen, rolls: slack.length };
}

interface Exchange {
  /** The length that changes its roll, where one does. */
  readonly moved: { readonly run: number; readonly part: Part } | null;
  readonly option: Option;
  /** What rolls have left more, by roll. */
  readonly changes: readonly (readonly [roll: number, by: number])[];
}

/** Lengths that an exchange is tried with for each piece of a run. */
const MOST_EXCHANGED = 12;

/** One of a run's pieces gets shorter and a new one makes up for it: on a roll that has room for the least piece, or in
 * the place of a whole length that moves to where the first piece was. */
function exchanged(
  run: RunInPlace,
  i: number,
  parts: readonly (readonly Part[])[],
  kept: readonly Stretch[],
  slack: readonly number[],
  rules: StaggerRules,
): Exchange | null {
  const { lap, least } = rules;
  const own = parts[i] as readonly Part[];
  const left = (roll: number) => slack[roll] as number;
  const tried = new Set<string>();
  const tryOut = (
    at: number,
    less: number,
    onto: number,
    moved: Exchange['moved'],
    length: number,
  ): Exchange | null => {
    const piece = own[at] as Part;
    const fresh = less + lap;
    const key = `${piece.length} ${left(piece.roll)} ${less} ${left(onto) + length - fresh}`;
    if (tried.has(key) || piece.length - less < least || fresh > left(onto) + length) return null;
    tried.add(key);
    const changes = [
      [piece.roll, less - length],
      [onto, length - fresh],
    ] as const;
    const then = [...slack];
    for (const [roll, by] of changes) then[roll] = (then[roll] as number) + by;
    const pieces = own.map((part, k) => (k === at ? { ...part, length: part.length - less } : part));
    for (const order of orders([...pieces, { roll: onto, length: fresh }], run.course % 2 === 0)) {
      const option = slide(run, order, kept, then, rules);
      if (option) return { moved, option, changes };
    }
    return null;
  };
  const rolls = new Set(own.map((part) => part.roll));
  const roomy = slack
    .map((_, roll) => roll)
    .filter((roll) => left(roll) >= least && !rolls.has(roll))
    .sort((a, b) => left(a) - left(b));
  for (const onto of roomy.slice(0, 1))
    for (let at = 0; at < own.length; at++) {
      const found = tryOut(at, least - lap, onto, null, 0);
      if (found) return found;
    }
  const whole = parts
    .flatMap((list, k) => (list.length === 1 && k !== i ? [{ run: k, part: list[0] as Part }] : []))
    .filter(({ part }) => !rolls.has(part.roll))
    .sort((a, b) => a.part.length - b.part.length || a.run - b.run);
  for (let at = 0; at < own.length; at++) {
    const { roll } = own[at] as Part;
    let looked = 0;
    for (const other of whole) {
      const less = Math.max(other.part.length - left(roll), least - lap);
      if (less + lap > left(other.part.roll) + other.part.length) continue;
      if (++looked > MOST_EXCHANGED) break;
      const moved = { run: other.run, part: { ...other.part, roll } };
      const found = tryOut(at, less, other.part.roll, moved, other.part.length);
      if (found) return found;
    }
  }
  return null;
}
