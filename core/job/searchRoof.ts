// In: a job and one of its roofs. Out: the search for its cheapest layout under the job's own rates, as a generator,
// or the faults that keep it from starting. Promise: what is found becomes the roof's laying by one command.
import { listDetails } from '../details/listDetails';
import { layMoney } from '../price/layMoney';
import { asBuilt } from '../roof/asBuilt';
import { buildRoof } from '../roof/buildRoof';
import type { Roof, RoofFault } from '../roof/types';
import { searchLayout, type SearchProgress } from '../search/searchLayout';
import { searchWork } from '../search/searchWork';
import type { Priced, SearchReport, SearchSpec } from '../search/types';
import type { LayoutFault } from '../sheets/types';
import { patchesIn } from './estimate';
import { measuredOn, readJobRoof, servesFlashings } from './estimateRoof';
import { mmPerPointOf } from './pageScale';
import { readClosing, readLayoutSpec, readRoll, readRolls } from './readRoof';
import type { Job, JobRoof } from './schema';

export type Search = Generator<SearchProgress, SearchReport, void>;

export function searchRoof(
  job: Job,
  id: string,
): { readonly search: Search } | { readonly faults: readonly (RoofFault | LayoutFault)[] } {
  const record = job.roofs[id];
  const read = record && readJobRoof(job, record);
  if (!record || !read)
    return {
      faults: [
        {
          where: id,
          message: 'There is no such roof, or no scale holds for it yet. Set the scale on the Plan stage.',
        },
      ],
    };
  const built = buildRoof(asBuilt(read, measuredOn(job, record)));
  if ('faults' in built) return built;
  const roll = readRoll(job.system, job.rates.rolls);
  const scale = mmPerPointOf(job, record) ?? 0;
  const { sideLap, lap, trade } = readLayoutSpec(job.system, roll, job.rates.rolls, record.laying, scale, '');
  const search = searchLayout(built.roof, {
    rolls: readRolls(job.rates.rolls).filter(
      (product) => product.id === roll.id || product.width < roll.width,
    ),
    field: roll.id,
    rip: 'allowed',
    sideLap,
    lap,
    trade,
    money: layMoney(job.rates, patchesIn(job)),
    flashings: demandOf(job, built.roof, trade),
    pinned: keptOf(record.laying, job.rates.rolls),
    work: searchWork(built.roof),
  });
  return { search };
}

/** The flashings that offcuts may serve, under the same terms as in the estimate; null where none do. */
function demandOf(
  { system, rates }: Job,
  roof: Roof,
  trade: SearchSpec['trade'],
): NonNullable<SearchSpec['flashings']> | null {
  if (!servesFlashings(system, trade)) return null;
  const { flashingRoll } = rates;
  return {
    pieces: listDetails(roof, flashingRoll.length).flashings,
    roll: readRoll({ ...system, roll: flashingRoll.id }, [flashingRoll]),
  };
}

/** What a person chose and told the search to keep. */
function keptOf(
  { direction, firstCourse, closing, keep = [] }: JobRoof['laying'],
  rolls: Job['rates']['rolls'],
): SearchSpec['pinned'] {
  return {
    direction: keep.includes('direction') && direction !== 'auto' ? direction : null,
    firstCourse: keep.includes('firstCourse') ? firstCourse : null,
    closings: keep.includes('closing') ? [readClosing(closing, rolls)] : null,
  };
}

/** The laying that makes a found layout the roof's own; pins, and what the search was to keep, stay. */
export function layingOf({ rules, closing }: Priced, before: JobRoof['laying']): JobRoof['laying'] {
  return {
    ...before,
    direction: rules.direction,
    firstCourse: rules.firstCourse,
    closing: closing?.kind === 'narrow' ? { kind: 'narrow', roll: closing.roll.id } : closing,
  };
}
