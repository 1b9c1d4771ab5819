// In: what a layout could not keep on the roof as measured. Out: findings in words. Promise: each says what lies where
// and what can be done about it on the roof; roof that is left bare is the verifier's to find.
import type { Finding } from '../verify/types';
import type { Unkept } from '../sheets/refitBand';

export function refitFindings(roof: string, unkept: readonly Unkept[]): readonly Finding[] {
  return unkept.map((one): Finding => {
    const head = { roof, at: [one.at[0], one.at[1]] as const };
    switch (one.kind) {
      case 'lies elsewhere':
        return {
          ...head,
          rule: 'lies-elsewhere',
          severity: 'error',
          ids: [one.sheet],
          message: `${one.sheet} lies here by the log, and this layout has no such sheet in its place. Take back what moved the sheets: direction, first course, an end lap, the roll.`,
          source: LYING,
        };
      case 'stops short':
        return {
          ...head,
          rule: 'laid-too-short',
          severity: 'warning',
          ids: [one.sheet],
          message: `${one.sheet} lies already and stops ${said(one.by)} short of where its course would now end. It is not moved. Where that leaves roof bare, weld a strip over the gap and set the measure of the edge to where the sheet ends.`,
          source: LYING,
        };
      case 'joint needed':
        return {
          ...head,
          rule: 'joint-needed',
          severity: 'error',
          ids: [],
          message:
            'As measured this run is longer than a roll, and the job wants no end laps. One was put in: allow end laps, or take a longer roll.',
          source: 'no sheet is longer than its roll',
        };
      case 'beyond the courses':
        return {
          ...head,
          rule: 'beyond-the-courses',
          severity: 'warning',
          ids: [],
          message: `The roof as measured reaches ${said(one.by)} beyond the courses here, and with sheets laid they are not moved. Weld a strip along the edge, and set its measure to where the course ends.`,
          source: LYING,
        };
    }
  });
}

const said = (mm: number) => `${Math.round(mm)} mm`;

const LYING = 'what lies by the log stays where it is';
