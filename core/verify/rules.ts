// The rules that a layout is held to, as data: how serious a breach is, and where the rule comes from.
import type { Severity } from './types';

export interface Rule {
  readonly severity: Severity;
  readonly source: string;
}

const PRACTICE = 'common practice, no source';

export const RULES = {
  uncovered: { severity: 'error', source: 'the membrane covers the roof and its allowances' },
  'not-square': { severity: 'error', source: 'a sheet comes off the roll as a rectangle' },
  'short-side-lap': { severity: 'error', source: "the job's side lap" },
  'short-end-lap': { severity: 'error', source: "the job's end lap" },
  'wide-lap': { severity: 'advice', source: 'a lap wider than asked for is membrane paid twice' },
  'end-lap-stagger': {
    severity: 'error',
    source: `end laps of neighbouring courses stand apart (${PRACTICE})`,
  },
  'four-sheets': { severity: 'error', source: `no four sheets at a point, only T-joints (${PRACTICE})` },
  'short-piece': { severity: 'error', source: `no piece below the least length (${PRACTICE})` },
  'too-long': { severity: 'error', source: 'no sheet is longer or wider than its roll' },
  'roll-overlap': { severity: 'error', source: 'pieces on one roll do not overlap' },
  'seam-metres': { severity: 'error', source: 'side laps on a line are the roof’s chord there' },
  'seam-sheets': { severity: 'error', source: 'a seam joins two sheets of this layout' },
  'lap-faces-water': {
    severity: 'advice',
    source: `the upslope sheet lies over the lower one (${PRACTICE})`,
  },
  'lap-near-drain': { severity: 'warning', source: `no lap within 300 mm of a drain’s bowl (${PRACTICE})` },
  'fastener-gap': { severity: 'error', source: "the job's fastener spacing" },
} as const satisfies Record<string, Rule>;

export type RuleName = keyof typeof RULES;

/** Worst first. */
export const SEVERITY_ORDER: readonly Severity[] = ['error', 'warning', 'advice'];

/** No lap nearer to a drain's bowl than this, mm. */
export const DRAIN_CLEAR_MM = 300;
/** Beyond this a difference is a fault and not arithmetic, mm. */
export const TOLERANCE_MM = 0.15;
/** Metres of seam may differ from the roof's chord by this, mm. */
export const SEAM_TOLERANCE_MM = 1;
