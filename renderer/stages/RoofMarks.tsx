// One roof's lines, parts with their own fall, and deck, each by name; every figure optional, and what is missing said.
import { mmPerPointOf } from '../../core/job/pageScale';
import type { JobDeck, JobFacet, JobRoof } from '../../core/job/schema';
import { formatAngle, formatFall, parseAngle, parseFall, turn } from '../../core/units/angles';
import { formatLength, parseLength } from '../../core/units/lengths';
import { distance } from '../document/rings';
import { Choice } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { Ledger, LedgerRow } from '../ui/Ledger';
import { counted } from '../ui/plural';
import { useStore } from '../ui/useStore';
import { LINE_WORDS } from './DrawTrade';
import { useLive, useSession } from './session';

export function RoofMarks({ roof }: { readonly roof: JobRoof }) {
  return (
    <Ledger label={`Lines, falls and deck of ${roof.name}`}>
      <Lines roof={roof} />
      <Facets roof={roof} />
      <Deck roof={roof} />
    </Ledger>
  );
}

function Lines({ roof }: { readonly roof: JobRoof }) {
  const { job, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const mmPerPoint = mmPerPointOf(job, roof);
  return roof.lines.map((line) => (
    <LedgerRow
      key={line.id}
      name={
        <button
          type="button"
          className={selection.some((p) => p.kind === 'line' && p.id === line.id) ? 'link on' : 'link'}
          onClick={() => actions.pick([{ kind: 'line', id: line.id, roof: roof.id }])}
        >
          Line {line.id.replace('l', '')}
        </button>
      }
      figure={
        <Choice
          label={`Kind of line ${line.id}`}
          value={line.kind}
          options={LINE_WORDS}
          onChoose={(kind) =>
            actions.run({ kind: 'setLine', roof: roof.id, line: line.id, fields: { kind } })
          }
        />
      }
      reason={
        <>
          {mmPerPoint ? formatLength(distance(line.from, line.to) * mmPerPoint, job.display) : ''}
          <button
            type="button"
            className="quiet"
            aria-label={`Remove line ${line.id}`}
            onClick={() => actions.run({ kind: 'removeLine', roof: roof.id, line: line.id })}
          >
            Remove
          </button>
        </>
      }
    />
  ));
}

function Facets({ roof }: { readonly roof: JobRoof }) {
  const { job, actions } = useLive();
  const set = (facets: readonly JobFacet[], label: string): string | null =>
    actions.run({ kind: 'setFacets', roof: roof.id, facets }, label);
  const change = (id: string, fields: Partial<JobFacet>): string | null =>
    set(
      roof.facets.map((facet) => (facet.id === id ? { ...facet, ...fields } : facet)),
      'Change fall',
    );
  return (
    <>
      {roof.facets.map((facet) => (
        <LedgerRow
          key={facet.id}
          name={`Part ${facet.id.replace('w', '')} falls to`}
          figure={
            <DraftField
              label={`Downhill direction of part ${facet.id}`}
              shown={formatAngle(facet.downhill)}
              onCommit={(text) => {
                const parsed = parseAngle(text);
                return 'fault' in parsed
                  ? parsed.fault
                  : change(facet.id, { downhill: turn(parsed.degrees, 360) });
              }}
            />
          }
          reason={
            <span className="field-line">
              <DraftField
                label={`Slope of part ${facet.id}`}
                shown={facet.ratio === null ? '' : formatFall(facet.ratio, job.display)}
                placeholder="slope"
                onCommit={(text) => {
                  const parsed = text.trim() === '' ? { ratio: null } : parseFall(text);
                  return 'fault' in parsed ? parsed.fault : change(facet.id, { ratio: parsed.ratio });
                }}
              />
              <button
                type="button"
                className="quiet"
                aria-label={`Remove part ${facet.id}`}
                onClick={() =>
                  set(
                    roof.facets.filter(({ id }) => id !== facet.id),
                    'Remove part',
                  )
                }
              >
                ×
              </button>
            </span>
          }
        />
      ))}
      {roof.facets.length > 1 && (
        <LedgerRow
          name={`${roof.facets.length} ${counted(roof.facets.length, 'part')}`}
          figure=""
          reason={
            <button type="button" className="quiet" onClick={() => set([], 'Remove all parts')}>
              Remove all
            </button>
          }
        />
      )}
    </>
  );
}

const DECK_WORDS = [
  { value: 'none', text: 'Not given' },
  { value: 'steel', text: 'Steel, fluted' },
  { value: 'concrete', text: 'Concrete' },
  { value: 'wood', text: 'Wood' },
] as const;

const BARE: Omit<JobDeck, 'kind'> = { flutes: null, pitch: null, flange: null, rib: null };

function Deck({ roof }: { readonly roof: JobRoof }) {
  const { job, actions } = useLive();
  const { deck } = roof;
  const set = (next: JobDeck | null): string | null =>
    actions.run({ kind: 'setRoof', roof: roof.id, fields: { deck: next } }, 'Change deck');
  const length = (key: 'pitch' | 'flange' | 'over', name: string, reason: string) =>
    deck && (
      <LedgerRow
        name={name}
        figure={
          <DraftField
            label={`${name} of ${roof.name}`}
            shown={deck[key] == null ? '' : formatLength(deck[key], job.display)}
            placeholder="not known"
            onCommit={(text) => {
              if (text.trim() === '') return set({ ...deck, [key]: key === 'over' ? undefined : null });
              const parsed = parseLength(text, job.display);
              if ('fault' in parsed) return parsed.fault;
              return parsed.mm > 0
                ? set({ ...deck, [key]: parsed.mm })
                : 'Type more than zero, or leave it empty.';
            }}
          />
        }
        reason={reason}
      />
    );
  return (
    <>
      <LedgerRow
        wide
        name="Deck"
        figure={
          <Choice
            label={`Deck of ${roof.name}`}
            value={deck?.kind ?? 'none'}
            options={DECK_WORDS}
            onChoose={(kind) => set(kind === 'none' ? null : { ...(deck ?? BARE), kind })}
          />
        }
      />
      {length('over', 'Over the deck', 'insulation and boards, at the thickest: for the fasteners')}
      {deck?.kind === 'steel' && (
        <>
          <LedgerRow
            name="Flutes run"
            figure={
              <DraftField
                label={`Flute direction of ${roof.name}`}
                shown={deck.flutes === null ? '' : formatAngle(deck.flutes)}
                placeholder="not given"
                onCommit={(text) => {
                  if (text.trim() === '') return set({ ...deck, flutes: null });
                  const parsed = parseAngle(text);
                  return 'fault' in parsed
                    ? parsed.fault
                    : set({ ...deck, flutes: turn(parsed.degrees, 180) });
                }}
              />
            }
            reason={deck.flutes === null ? 'type it, or click along one' : 'courses run across'}
          />
          {length('pitch', 'Rib to rib', 'for rows along ribs')}
          {length('flange', 'Top flange', 'its width')}
          {deck.rib && (
            <LedgerRow
              name="A top flange"
              figure="placed"
              reason={
                <button type="button" className="quiet" onClick={() => set({ ...deck, rib: null })}>
                  Forget
                </button>
              }
            />
          )}
        </>
      )}
    </>
  );
}
