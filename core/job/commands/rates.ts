// Commands on the membrane system and the rates. What a person sets is remembered as confirmed; everything else
// stays marked as assumed.
import { ratesSchema } from '../../rates/schema';
import { systemSchema, type Job } from '../schema';
import { refuse } from './tables';
import type { CommandHandlers, CommandResult } from './types';

export const rateCommands: CommandHandlers<'setSystem' | 'setRate'> = {
  setSystem: (job, { fields }) => {
    const system = { ...job.system, ...fields };
    const checked = systemSchema.safeParse(system);
    if (!checked.success) return badValue('system', checked.error.issues[0]);
    const roll = job.rates.rolls.find((r) => r.id === system.roll);
    if (!roll)
      return refuse(`There is no roll “${system.roll}” among the products`, 'Pick one of the rolls listed');
    if (system.sideLap >= roll.width)
      return refuse(
        `A side lap of ${system.sideLap} mm is as wide as the sheet (${roll.width} mm)`,
        'Give a lap narrower than the sheet',
      );
    if (system.endLap >= roll.length)
      return refuse(
        `An end lap of ${system.endLap} mm is as long as the roll (${roll.length} mm)`,
        'Give a shorter lap',
      );
    if (system.minPiece > roll.length)
      return refuse(
        `The shortest piece (${system.minPiece} mm) is longer than the roll (${roll.length} mm)`,
        'Give a shorter piece or a longer roll',
      );
    return {
      job: confirm(
        { ...job, system },
        Object.keys(fields).map((key) => `system.${key}`),
      ),
    };
  },
  setRate: (job, { path, value }) => {
    const next = replaceAt(job.rates, path, value);
    const checked = ratesSchema.safeParse(next);
    if (!checked.success) return badValue('rates', checked.error.issues[0]);
    if (!checked.data.rolls.some((roll) => roll.id === job.system.roll))
      return refuse(
        `The roll “${job.system.roll}” is in use`,
        'Choose another roll under Sheets before removing it',
      );
    const { surfaces, conditions } = checked.data.welding;
    if (path[1] === 'surfaces' && !surfaces.some((row) => row.name === conditions.surface))
      return refuse(
        `The surface “${conditions.surface}” is planned for`,
        'Plan for another one before removing or renaming it',
      );
    const name = `rates.${path.join('.')}`;
    const kept = Array.isArray(value) ? withRows(job, name, valueAt(job.rates, path), value) : job;
    return { job: confirm({ ...kept, rates: next as Job['rates'] }, [name]) };
  },
};

function badValue(where: string, issue: { path: PropertyKey[]; message: string } | undefined): CommandResult {
  const path = [where, ...(issue?.path ?? []).map(String)].join('.');
  return refuse(`${path}: ${issue?.message ?? 'not a value this field takes'}`, 'The old value was kept');
}

function confirm(job: Job, paths: readonly string[]): Job {
  const fresh = paths.filter((path) => !job.confirmed.includes(path));
  return fresh.length === 0 ? job : { ...job, confirmed: [...job.confirmed, ...fresh] };
}

/** A list with rows added or taken out: what was confirmed of a row goes with it, and an added row is a person's. */
function withRows(job: Job, name: string, before: unknown, after: readonly unknown[]): Job {
  const told = (row: unknown) => JSON.stringify(row);
  const places = new Map<string, number[]>();
  (Array.isArray(before) ? before : []).forEach((row, k) => {
    places.set(told(row), [...(places.get(told(row)) ?? []), k]);
  });
  const below = after.flatMap((row, k) => {
    const was = places.get(told(row))?.shift();
    if (was === undefined) return fieldsOf(row).map((field) => `${name}.${k}${field}`);
    const prefix = `${name}.${was}.`;
    return job.confirmed
      .filter((path) => path.startsWith(prefix))
      .map((path) => `${name}.${k}.${path.slice(prefix.length)}`);
  });
  return { ...job, confirmed: [...job.confirmed.filter((path) => !path.startsWith(`${name}.`)), ...below] };
}

function fieldsOf(row: unknown): string[] {
  return typeof row === 'object' && row !== null ? Object.keys(row).map((key) => `.${key}`) : [''];
}

function valueAt(node: unknown, path: readonly (string | number)[]): unknown {
  return path.reduce<unknown>(
    (here, step) =>
      typeof here === 'object' && here !== null
        ? (here as Readonly<Record<string | number, unknown>>)[step]
        : undefined,
    node,
  );
}

function replaceAt(node: unknown, path: readonly (string | number)[], value: unknown): unknown {
  const [head, ...rest] = path;
  if (head === undefined) return value;
  if (Array.isArray(node))
    return node.map((item: unknown, i) => (i === Number(head) ? replaceAt(item, rest, value) : item));
  if (typeof node !== 'object' || node === null) return node;
  const record = node as Readonly<Record<string, unknown>>;
  return { ...record, [head]: replaceAt(record[head], rest, value) };
}
