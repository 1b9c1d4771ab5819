// The rules that a layout is held to, as data: how serious a breach is, where the rule comes from, and with which rule
// of the trade it is switched off.
import type { TradeRule } from '../sheets/types';
import type { Severity } from './types';

export interface Rule {
  readonly severity: Severity;
  readonly source: string;
  readonly off?: TradeRule;
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
    off: 'sheds-water',
  },
  'lap-faces-water-low': {
    severity: 'error',
    source: `no lap faces the water near a drain or a valley (${PRACTICE})`,
    off: 'sheds-water',
  },
  'lap-in-valley': {
    severity: 'error',
    source: `no side lap along a valley and no end lap in it (${PRACTICE})`,
    off: 'valley-clear',
  },
  'valley-off-centre': {
    severity: 'advice',
    source: `one sheet lies centred on a valley where it can (${PRACTICE})`,
    off: 'valley-clear',
  },
  'lap-near-drain': {
    severity: 'error',
    source: `no lap within a drain’s clear distance but under a target sheet (${PRACTICE})`,
    off: 'drain-clear',
  },
  'lap-along-edge': {
    severity: 'warning',
    source: `no side lap where a machine has no room beside an edge (${PRACTICE})`,
    off: 'edge-clear',
  },
  'end-lap-near-corner': {
    severity: 'warning',
    source: `end laps keep off the corners of openings (${PRACTICE})`,
    off: 'corner-clear',
  },
  'narrow-course': {
    severity: 'warning',
    source: "the job's least width of a course",
    off: 'least-width',
  },
  'crosses-line': {
    severity: 'error',
    source: `no sheet crosses an expansion joint, a tie-in or a phase line (${PRACTICE})`,
  },
  'edge-rows': { severity: 'error', source: 'the rows that the job asks for along the edge' },
  'edge-rows-missing': { severity: 'warning', source: 'the rows that the job asks for along the edge' },
  'flutes-not-given': {
    severity: 'warning',
    source: `fastened courses run across the flutes of a steel deck (${PRACTICE})`,
    off: 'across-flutes',
  },
  'row-along-flutes': {
    severity: 'warning',
    source: `a row along the flutes loads a single rib (${PRACTICE})`,
    off: 'across-flutes',
  },
  'row-off-flange': {
    severity: 'error',
    source: `a row along the flutes stands on a top flange (${PRACTICE})`,
    off: 'across-flutes',
  },
  'wrong-selvedge': {
    severity: 'error',
    source: `fleece-backed sheets weld on their bare edge only (${PRACTICE})`,
  },
  'cut-edge-shows': {
    severity: 'advice',
    source: `a reinforced sheet’s cut edge goes under where it can (${PRACTICE})`,
    off: 'cut-edge-under',
  },
  'cut-edge-unsealed': {
    severity: 'error',
    source: `a reinforced sheet’s cut edge that shows is sealed (${PRACTICE})`,
    off: 'cut-edge-under',
  },
  'dropped-over': {
    severity: 'error',
    source: `no sheet is dropped over a tall or live unit (${PRACTICE})`,
    off: 'dropped-over',
  },
  'pin-not-kept': { severity: 'warning', source: 'an end lap that a person put there' },
  'false-edge': { severity: 'error', source: 'slitting a roll leaves cut edges' },
  'rows-apart': { severity: 'warning', source: "the engineer's own figure for the zone" },
  'fastener-gap': { severity: 'error', source: "the job's fastener spacing" },
} as const satisfies Record<string, Rule>;

export type RuleName = keyof typeof RULES;

/** Worst first. */
export const SEVERITY_ORDER: readonly Severity[] = ['error', 'warning', 'advice'];

/** No lap nearer to a drain's bowl, or to a valley, than this, mm, where nothing else is said. */
export const DRAIN_CLEAR_MM = 300;
export const VALLEY_CLEAR_MM = 300;
/** Beyond this a difference is a fault and not arithmetic, mm. */
export const TOLERANCE_MM = 0.15;
/** Metres of seam may differ from the roof's chord by this, mm. */
export const SEAM_TOLERANCE_MM = 1;
/** Lines nearer in direction than this run along each other, degrees. */
export const ALONG_DEG = 3;
/** A valley this near to the middle of a sheet lies in the middle, mm. */
export const OFF_CENTRE_MM = 100;
