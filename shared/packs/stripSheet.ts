// The sheet to fill in by hand: the test strips that are due, day by day, and room for those that follow.
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { timeOf } from '../../core/units/times';
import type { Pack } from './canvas';
import { fitted, ListWriter, RULES, TYPE } from './paper';

const COLUMNS = [
  ['day', 30],
  ['what, why', 118],
  ['due', 32],
  ['by', 26],
  ['time', 32],
  ['m/min', 32],
  ['nozzle °C', 40],
  ['air °C', 34],
  ['reading', 40],
  ['came apart A B C D', 82],
  ['good', 26],
] as const;

export function writeStripSheet(pack: Pack, job: Job, estimate: Estimate): void {
  const list = new ListWriter(pack, job, 'Test strips');
  const { peelTarget, machines } = job.rates.welding;
  list.heading('Test strips, to fill in');
  list.paragraph(
    `Weld a strip of the day's own sheet, let it cool, pull it. Came apart: A the reinforcement lies bare over the whole width of the weld (good); B the sheet tore outside the weld (good); C bare over a part of the width only (adjust, again); D peeled clean (a cold weld, however high it reads: adjust, again). A reading is welcome and not needed; planned target ${peelTarget.value} ${peelTarget.unit} (common practice unless the membrane's maker says otherwise).`,
  );
  list.paragraph(
    'A trial that fails on the roof: mark every seam back to the last good test, probe them again, patch the cut-out.',
    TYPE.strong,
  );
  const head = () => {
    list.gap(14);
    let x = list.left;
    for (const [name, width] of COLUMNS) {
      list.page.text([x + 2, list.y], name, TYPE.small);
      x += width;
    }
    list.gap(4);
    list.page.line([list.left, list.y], [list.right, list.y], RULES.firm);
  };
  const row = (day: string, what: string, due = '') => {
    list.need(24);
    list.gap(22);
    let x = list.left;
    COLUMNS.forEach(([name, width], k) => {
      const words = [day, fitted(pack, what, TYPE.body, width - 4), due][k] ?? '';
      list.page.text([x + 2, list.y + 6], words, k === 0 ? TYPE.strong : TYPE.body);
      if (name.startsWith('came'))
        for (let box = 0; box < 4; box++)
          list.page.box([x + 6 + box * 19, list.y + 3], [x + 17 + box * 19, list.y + 14], {
            stroke: { width: 0.6 },
          });
      x += width;
      if (k + 1 < COLUMNS.length) list.page.line([x, list.y], [x, list.y + 22], RULES.thin);
    });
    list.page.line([list.left, list.y], [list.right, list.y], RULES.thin);
  };
  head();
  for (const day of estimate.workPlan.days)
    for (const strip of day.strips)
      row(
        String(day.number),
        `${strip.machine === null ? 'Hand gun' : (machines[strip.machine]?.name ?? 'Machine')}, ${strip.reason}`,
        timeOf(strip.at),
      );
  for (let k = 0; k < 8; k++) row('', '');
}
