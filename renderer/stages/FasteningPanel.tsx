// Fasteners of each roof: the zones that an engineer gave, how long they are and why. Nothing here is computed from wind.
import type { JobFastening, JobRoof } from '../../core/job/schema';
import type { RoofEstimate } from '../../core/job/result';
import { formatLength, parseLength } from '../../core/units/lengths';
import { DraftField } from '../ui/DraftField';
import { AssumedMark, Ledger, LedgerRow, Section } from '../ui/Ledger';
import { isAssumed, useLive } from './session';

type ZoneName = 'perimeter' | 'corner';
type Zone = NonNullable<JobFastening[ZoneName]>;

export function FasteningPanel({ roofs }: { readonly roofs: readonly RoofEstimate[] }) {
  const { job } = useLive();
  const records = Object.values(job.roofs);
  if (records.length === 0) return null;
  return (
    <Section title="Fasteners by zone">
      <p className="soft">
        Type what the wind design of a licensed engineer gives for this roof: how far in the zone reaches, how
        far apart fasteners stand along a lap there, and at most how far apart the rows. What is left open is
        fastened as the field.
      </p>
      {records.map((roof) => (
        <Ledger key={roof.id} label={`Fasteners of ${roof.name}`}>
          {records.length > 1 && <LedgerRow name={<strong>{roof.name}</strong>} figure="" />}
          <Length fastener={roofs.find(({ id }) => id === roof.id)?.fastener ?? null} />
          {(['perimeter', 'corner'] as const).map((name) => (
            <ZoneRows key={name} roof={roof} name={name} />
          ))}
        </Ledger>
      ))}
      <Ledger label="Fastener lengths on offer">
        <Lengths />
      </Ledger>
    </Section>
  );
}

function Length({ fastener }: Pick<RoofEstimate, 'fastener'>) {
  const { job } = useLive();
  return (
    <LedgerRow
      wide
      name="Length"
      figure={fastener?.length == null ? 'open' : formatLength(fastener.length, job.display)}
      reason={fastener?.formula ?? ''}
    />
  );
}

const FIELDS = [
  ['depth', 'reaches in', 'from the edge'],
  ['spacing', 'apart', 'along a lap'],
  ['rows', 'rows apart', 'at most'],
] as const;

/** A zone begins with its depth; its fasteners then stand as in the field until they are given too. */
function ZoneRows({ roof, name }: { readonly roof: JobRoof; readonly name: ZoneName }) {
  const { job, actions } = useLive();
  const zone = roof.fastening?.[name];
  const put = (next: Zone | undefined): string | null =>
    actions.run(
      { kind: 'setRoof', roof: roof.id, fields: { fastening: { ...roof.fastening, [name]: next } } },
      'Fasteners by zone',
    );
  const read = (key: keyof Zone, text: string): string | null => {
    if (text.trim() === '') {
      if (key === 'depth' || !zone) return put(undefined);
      return put(
        key === 'spacing' ? { ...zone, spacing: job.system.fastenerSpacing } : { ...zone, rows: undefined },
      );
    }
    const parsed = parseLength(text, job.display);
    if ('fault' in parsed) return parsed.fault;
    if (!(parsed.mm > 0)) return 'Type more than zero, or leave it empty.';
    return put({ ...(zone ?? { depth: 0, spacing: job.system.fastenerSpacing }), [key]: parsed.mm });
  };
  const title = name === 'perimeter' ? 'Perimeter' : 'Corners';
  return FIELDS.filter(([key]) => key === 'depth' || zone !== undefined).map(([key, says, reason]) => (
    <LedgerRow
      key={key}
      name={key === 'depth' ? `${title} ${says}` : says}
      figure={
        <DraftField
          label={`${title} of ${roof.name}, ${says}`}
          shown={zone?.[key] === undefined ? '' : formatLength(zone[key], job.display)}
          placeholder="not given"
          onCommit={(text) => read(key, text)}
        />
      }
      reason={
        key === 'spacing' && zone && zone.spacing > job.system.fastenerSpacing
          ? 'the field’s own is closer and holds'
          : reason
      }
    />
  ));
}

function Lengths() {
  const { job, actions } = useLive();
  const lengths = job.rates.fastenerLengths;
  const set = (value: readonly number[]): string | null =>
    actions.run({ kind: 'setRate', path: ['fastenerLengths'], value });
  return (
    <LedgerRow
      wide
      name="Lengths on offer"
      figure={
        <DraftField
          label="Fastener lengths on offer, mm"
          align="left"
          shown={lengths.join(' ')}
          onCommit={(text) => {
            const read = text
              .split(/[\s,;]+/)
              .filter(Boolean)
              .map(Number);
            return read.every((mm) => Number.isFinite(mm) && mm > 0)
              ? set([...read].sort((a, b) => a - b))
              : 'Write lengths in millimetres with spaces between, such as 80 100 120.';
          }}
        />
      }
      reason={isAssumed(job, 'rates.fastenerLengths') ? <AssumedMark onConfirm={() => set(lengths)} /> : 'mm'}
    />
  );
}
