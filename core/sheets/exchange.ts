// In: groups of runs that fill their rolls, and a rest that is over its own. Out: the same with other members, and the
// rest less over. Promise: no group is over its rolls and each can be cut; counted work, the same answer every time.
//
// What the groups waste is too little in each to take a run of the rest up, and together enough. So groups change
// members with each other, by chance, as long as both stay within their rolls. Each time one has other members it may
// come apart into two, which spares a joint, or take longer members over from the rest for shorter ones; now and then
// slightly shorter ones, lest it come to a stand (annealing at one temperature; Connolly 1990).
import type { Work } from './fill';
import { closed, roomOf, type Gathered, type GatheredGroup, type GatherStock } from './gather';

/** The members of larger groups are left as they are. */
const MOST_MEMBERS = 7;
/** A rest of more is not exchanged with; it grows no larger than a group. */
const MOST_IN_REST = 10;
/** What a turn costs beside the sets it looks at, in sets. */
const TURN_COST = 20;
/** Of so many groups the one with the most members is taken: more sets, more that fit. */
const LOOKED_AT = 6;
/** Length that the rest takes back once in e times, as a share of a lap. */
const TAKEN_BACK = 1 / 32;

/** Some runs, and the lengths of all sets of them, ascending; a set is a number of bits. */
interface Sets {
  readonly members: readonly number[];
  readonly sums: Float64Array;
  readonly sets: Uint16Array;
}

interface OpenGroup extends Sets {
  readonly group: GatheredGroup;
  readonly waste: number;
}

export function exchange(stock: GatherStock, found: Gathered, next: () => number, work: Work): Gathered {
  const { rests, rules } = stock;
  const open = (group: GatheredGroup): OpenGroup => {
    const sets = setsOf(group.members, rests);
    return { ...sets, group, waste: roomOf(rules, group.rolls) - lengthOf(sets) };
  };
  const small = found.groups.filter(({ members }) => members.length <= MOST_MEMBERS);
  const large = found.groups.filter(({ members }) => members.length > MOST_MEMBERS);
  if (small.length < 2 || found.rest.length > MOST_IN_REST) return found;
  const groups = small.map(open);
  let rest = setsOf(found.rest, rests);
  let { over } = found;

  /** What is closed with other members, or null where no order of them can be cut. */
  const withMembers = (members: readonly number[], rolls: number): OpenGroup | null => {
    if (members.length === 0 || members.length > MOST_MEMBERS) return null;
    const group = closed(stock, members, rolls);
    return group && open(group);
  };
  const takeFromRest = (at: number) => {
    const own = groups[at] as OpenGroup;
    work.left -= own.sets.length + rest.sets.length;
    const swap = bestSwap(own, rest);
    if (!swap || swap.gain < rules.lap * TAKEN_BACK * Math.log(next())) return;
    const [mine, theirs] = swapped(own, rest, swap);
    if (theirs.length === 0 || theirs.length > Math.max(MOST_MEMBERS, rest.members.length)) return;
    const fuller = withMembers(mine, own.group.rolls);
    if (!fuller) return;
    groups[at] = fuller;
    rest = setsOf(theirs, rests);
    over -= swap.gain;
  };
  const comeApart = (at: number) => {
    const own = groups[at] as OpenGroup;
    const { rolls } = own.group;
    const all = lengthOf(own);
    for (let part = 1; part < rolls; part++) {
      const [least, most] = [all - roomOf(rules, rolls - part), roomOf(rules, part)];
      for (let k = own.sums.length - 2; k > 0 && (own.sums[k] as number) >= least; k--) {
        if ((own.sums[k] as number) > most) continue;
        const set = own.sets[k] as number;
        const one = withMembers(membersOf(own, set), part);
        const two = withMembers(membersOf(own, ~set), rolls - part);
        if (!one || !two) continue;
        groups[at] = one;
        groups.push(two);
        return;
      }
    }
  };

  for (let at = 0; at < groups.length && over > 0; at++) takeFromRest(at);
  while (over > 0 && work.left > 0) {
    let i = Math.floor(next() * groups.length);
    for (let k = 1; k < LOOKED_AT; k++) {
      const other = Math.floor(next() * groups.length);
      if ((groups[other] as OpenGroup).members.length > (groups[i] as OpenGroup).members.length) i = other;
    }
    const j = Math.floor(next() * groups.length);
    const [a, b] = [groups[i] as OpenGroup, groups[j] as OpenGroup];
    work.left -= a.sets.length + b.sets.length + TURN_COST;
    if (i === j) continue;
    const swap = someSwap(a, b, next);
    if (!swap) continue;
    const [mine, theirs] = swapped(a, b, swap);
    const one = withMembers(mine, a.group.rolls);
    const two = one && withMembers(theirs, b.group.rolls);
    if (!two) continue;
    [groups[i], groups[j]] = [one, two];
    for (const at of [i, j]) {
      comeApart(at);
      if (over > 0) takeFromRest(at);
    }
  }
  return {
    groups: [...large, ...groups.map(({ group }) => group)],
    rest: rest.members,
    rolls: found.rolls,
    over,
  };
}

/** Of all members: the longest set is theirs. */
const lengthOf = ({ sums }: Sets) => sums[sums.length - 1] as number;

function setsOf(members: readonly number[], rests: readonly number[]): Sets {
  const count = 1 << members.length;
  const length = new Float64Array(count);
  for (let k = 0, bit = 1; bit < count; k++, bit <<= 1) {
    const own = rests[members[k] as number] as number;
    for (let set = 0; set < bit; set++) length[bit | set] = (length[set] as number) + own;
  }
  const sets = Uint16Array.from(length, (_, set) => set).sort(
    (a, b) => (length[a] as number) - (length[b] as number) || a - b,
  );
  return { members, sets, sums: Float64Array.from(sets, (set) => length[set] as number) };
}

/** Members that a group gives away and takes, as sets; how much longer it becomes. */
interface Swap {
  readonly gives: number;
  readonly takes: number;
  readonly gain: number;
}

/** The swap after which a group wastes least, other than none. */
function bestSwap(own: OpenGroup, other: Sets): Swap | null {
  let best: Swap | null = null;
  let k = 0;
  for (let i = 0; i < own.sums.length; i++) {
    const most = (own.sums[i] as number) + own.waste;
    while (k < other.sums.length && (other.sums[k] as number) <= most) k++;
    // The longest that fits; nothing for nothing is no swap.
    const at = k - 1;
    if (at < 0 || (i === 0 && at === 0)) continue;
    const gain = (other.sums[at] as number) - (own.sums[i] as number);
    if (!best || gain > best.gain)
      best = { gives: own.sets[i] as number, takes: other.sets[at] as number, gain };
  }
  return best;
}

/** By chance one of the swaps after which both groups stay within their rolls. */
function someSwap(a: OpenGroup, b: OpenGroup, next: () => number): Swap | null {
  const [allOfA, allOfB] = [a.sets.length - 1, b.sets.length - 1];
  let found: Swap | null = null;
  let seen = 0;
  let low = 0;
  for (let i = 0; i < a.sums.length; i++) {
    const own = a.sums[i] as number;
    const [least, most] = [own - b.waste, own + a.waste];
    while (low < b.sums.length && (b.sums[low] as number) < least) low++;
    for (let k = low; k < b.sums.length && (b.sums[k] as number) <= most; k++) {
      const [gives, takes] = [a.sets[i] as number, b.sets[k] as number];
      // Nothing for nothing, or all for all, changes nothing.
      if ((gives === 0 && takes === 0) || (gives === allOfA && takes === allOfB)) continue;
      seen++;
      if (seen === 1 || next() * seen < 1) found = { gives, takes, gain: (b.sums[k] as number) - own };
    }
  }
  return found;
}

function swapped(own: Sets, other: Sets, { gives, takes }: Swap): [number[], number[]] {
  return [
    [...membersOf(own, ~gives), ...membersOf(other, takes)],
    [...membersOf(other, ~takes), ...membersOf(own, gives)],
  ];
}

const membersOf = ({ members }: Sets, set: number) => members.filter((_, k) => (set & (1 << k)) !== 0);
