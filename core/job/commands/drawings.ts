// Commands on the job's heading, its drawings, pages and scales.
import { overlap } from '../../plan/pageParts';
import type { JobScale } from '../schema';
import { noSuch, refuse, without, withRecord, withRecords } from './tables';
import type { CommandHandlers, CommandResult } from './types';

export const drawingCommands: CommandHandlers<
  | 'setAbout'
  | 'setDisplay'
  | 'addDrawing'
  | 'addPage'
  | 'renamePage'
  | 'removePage'
  | 'setScale'
  | 'setRegion'
  | 'removeRegion'
  | 'addCheck'
  | 'removeCheck'
> = {
  setAbout: (job, { fields }) => {
    const about = { ...job.about, ...fields };
    if (about.name.trim() === '') return refuse('The job has no name', 'Type at least one letter');
    if (!/^\d{4}-\d{2}-\d{2}$/.test(about.date))
      return refuse(`“${about.date}” is not a date`, 'Write it as year-month-day, such as 2026-05-14');
    return { job: { ...job, about } };
  },
  setDisplay: (job, { display }) => ({ job: { ...job, display } }),
  addDrawing: (job, { drawing, pages }) => ({
    job: { ...job, drawings: withRecord(job.drawings, drawing), pages: withRecords(job.pages, pages) },
  }),
  addPage: (job, { page }) => ({ job: { ...job, pages: withRecord(job.pages, page) } }),
  renamePage: (job, { page, name }) => {
    const record = job.pages[page];
    if (!record) return noSuch('page', page);
    return { job: { ...job, pages: withRecord(job.pages, { ...record, name }) } };
  },
  removePage: (job, { page }) => {
    const record = job.pages[page];
    if (!record) return noSuch('page', page);
    const roof = Object.values(job.roofs).find((r) => r.page === page);
    if (roof) return refuse(`The roof “${roof.name}” is traced on this page`, 'Remove the roof first');
    const pages = without(job.pages, [page]);
    const stillUsed = Object.values(pages).some((p) => p.drawing === record.drawing);
    const drawings =
      stillUsed || record.drawing === null ? job.drawings : without(job.drawings, [record.drawing]);
    return { job: { ...job, pages, drawings } };
  },
  setScale: (job, { page, scale }) => {
    const record = job.pages[page];
    if (!record) return noSuch('page', page);
    if (scale && !isScale(scale)) return comesToNothing();
    return { job: { ...job, pages: withRecord(job.pages, { ...record, scale }) } };
  },
  setRegion: (job, { page, region }) => {
    const record = job.pages[page];
    if (!record) return noSuch('page', page);
    if (!isScale(region.scale)) return comesToNothing();
    const { low, high } = region;
    if (!(high[0] > low[0] && high[1] > low[1]))
      return refuse('A region needs a width and a height', 'Click the corner opposite the first');
    const { regions = [] } = record;
    if (regions.some((one) => one.id !== region.id && overlap(one, region)))
      return refuse(
        'Two regions would share ground, and no length there would have one scale',
        'Draw them side by side, or remove the other one first',
      );
    const next = regions.some(({ id }) => id === region.id)
      ? regions.map((one) => (one.id === region.id ? region : one))
      : [...regions, region];
    return { job: { ...job, pages: withRecord(job.pages, { ...record, regions: next }) } };
  },
  removeRegion: (job, { page, region }) => {
    const record = job.pages[page];
    if (!record) return noSuch('page', page);
    const { regions = [], ...rest } = record;
    if (!regions.some(({ id }) => id === region)) return noSuch('region', region);
    const left = regions.filter(({ id }) => id !== region);
    const next = left.length === 0 ? rest : { ...rest, regions: left };
    return { job: { ...job, pages: withRecord(job.pages, next) } };
  },
  addCheck: (job, { page, check }) => {
    const record = job.pages[page];
    if (!record) return noSuch('page', page);
    if (!(check.length > 0))
      return refuse('A known length must be above zero', 'Type the length as the drawing states it');
    return {
      job: { ...job, pages: withRecord(job.pages, { ...record, checks: [...record.checks, check] }) },
    };
  },
  removeCheck: (job, { page, index }) => {
    const record = job.pages[page];
    if (!record) return noSuch('page', page);
    const checks = record.checks.filter((_, i) => i !== index);
    return { job: { ...job, pages: withRecord(job.pages, { ...record, checks }) } };
  },
};

function isScale({ mmPerPoint }: JobScale): boolean {
  return Number.isFinite(mmPerPoint) && mmPerPoint > 0;
}

function comesToNothing(): CommandResult {
  return refuse(
    'The scale comes to nothing',
    'Give a ratio such as 1:100, or two different points and a length above zero',
  );
}
