// Roofs, openings and fittings; what the edges are; the fall.
import { formatArea, formatMetres } from '../../core/units/lengths';
import { formatAngle, formatFall, parseAngle, parseFall } from '../../core/units/angles';
import type { JobRoof } from '../../core/job/schema';
import type { OpeningKind } from '../../core/roof/types';
import { Choice } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { LengthField } from '../ui/LengthField';
import { Ledger, LedgerRow, Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { DrawTrade } from './DrawTrade';
import { BlocksChoice } from './BlocksChoice';
import { EdgePanel, EDGE_WORDS } from './EdgePanel';
import { FITTING_WORDS, FittingPanel } from './FittingPanel';
import { RoofMarks } from './RoofMarks';
import { QuantityRows } from './QuantityRows';
import { quantitiesFor } from './quantitiesFor';
import { ToolButton } from './ToolButton';
import { useLive, useSession } from './session';

export const OPENING_WORDS: readonly { value: OpeningKind; text: string }[] = [
  { value: 'courtyard', text: 'Courtyard' },
  { value: 'skylight', text: 'Skylight' },
  { value: 'hatch', text: 'Hatch' },
  { value: 'curb', text: 'Curb' },
];

export function RoofStage() {
  const { job, estimate } = useLive();
  const roofs = Object.values(job.roofs);
  return (
    <>
      <DrawPanel />
      {estimate && roofs.length > 0 && (
        <Section title="In all">
          <Ledger label="In all">
            <QuantityRows quantities={quantitiesFor('roof', estimate.quantities)} />
          </Ledger>
        </Section>
      )}
      {roofs.map((roof) => (
        <RoofPanel key={roof.id} roof={roof} />
      ))}
      {roofs.length > 0 && <EdgePanel />}
      {roofs.length > 0 && <FittingPanel />}
    </>
  );
}

/** What is drawn next, said before it is drawn. */
function DrawPanel() {
  const { job, view, actions } = useLive();
  const { edge, opening, fitting } = view.options;
  const { display } = job;
  const hasRoof = Object.keys(job.roofs).length > 0;
  return (
    <Section title="Draw">
      <div className="draw-row">
        <ToolButton tool="traceRegion" name="Take a roof" />
        <span className="draw-options single soft">by one click inside it</span>
      </div>
      <div className="draw-row">
        <ToolButton tool="traceRoof" name="Trace a roof" />
        <span className="draw-options">
          <Choice
            label="New sides are"
            value={edge.kind}
            options={EDGE_WORDS}
            onChoose={(kind) => actions.setOptions({ edge: { ...edge, kind } })}
          />
          <LengthField
            label="Upstand of new sides"
            mm={edge.upstand}
            display={display}
            onLength={(upstand) => {
              actions.setOptions({ edge: { ...edge, upstand } });
              return null;
            }}
          />
        </span>
      </div>
      <div className="draw-row">
        <ToolButton tool="addOpening" name="Opening" disabled={!hasRoof} />
        <span className="draw-options">
          <Choice
            label="Kind of opening"
            value={opening.kind}
            options={OPENING_WORDS}
            onChoose={(kind) => actions.setOptions({ opening: { ...opening, kind } })}
          />
          <Choice
            label="Shape of opening"
            value={opening.shape}
            options={[
              { value: 'rectangle', text: 'Rectangle' },
              { value: 'outline', text: 'Any shape' },
            ]}
            onChoose={(shape) => actions.setOptions({ opening: { ...opening, shape } })}
          />
        </span>
      </div>
      <div className="draw-row">
        <ToolButton tool="placeFitting" name="Fitting" disabled={!hasRoof} />
        <span className="draw-options">
          <Choice
            label="Kind of fitting"
            value={fitting.kind}
            options={FITTING_WORDS}
            onChoose={(kind) => actions.setOptions({ fitting: { ...fitting, kind } })}
          />
          <LengthField
            label="Size of fitting"
            mm={fitting.size}
            display={display}
            onLength={(size) => {
              actions.setOptions({ fitting: { ...fitting, size } });
              return null;
            }}
          />
        </span>
      </div>
      {hasRoof && <DrawTrade />}
    </Section>
  );
}

function RoofPanel({ roof }: { readonly roof: JobRoof }) {
  const { job, estimate, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const built = estimate?.roofs.find((one) => one.id === roof.id);
  const { display } = job;
  const openings = Object.values(job.openings).filter((one) => one.roof === roof.id);
  const isPicked = selection.some((p) => p.kind === 'roof' && p.id === roof.id);
  const pick = () => actions.pick([{ kind: 'roof', id: roof.id, roof: roof.id }]);
  return (
    <Section
      title={roof.name}
      aside={
        <button type="button" className={isPicked ? 'quiet on' : 'quiet'} onClick={pick}>
          Show
        </button>
      }
    >
      {built?.faults.map((fault) => (
        <p key={fault.message} className="fault" role="alert">
          {fault.message}
        </p>
      ))}
      <Ledger label={roof.name}>
        <LedgerRow
          name="Name"
          figure={
            <DraftField
              label={`Name of roof ${roof.letter}`}
              shown={roof.name}
              align="left"
              onCommit={(name) =>
                actions.run({ kind: 'setRoof', roof: roof.id, fields: { name: name.trim() } })
              }
            />
          }
          reason={`letter ${roof.letter}`}
        />
        <LedgerRow
          name="Area"
          figure={built?.roof ? formatArea(built.roof.area, display) : '—'}
          reason={openings.length > 0 ? `less ${openings.length} openings` : 'in plan'}
        />
        <LedgerRow
          name="Perimeter"
          figure={built?.roof ? formatMetres(built.roof.perimeter / 1000, display) : '—'}
          reason={`${roof.outline.length} sides`}
        />
        <FallRows roof={roof} />
        {openings.map((opening) => (
          <LedgerRow
            key={opening.id}
            name={
              <button
                type="button"
                className="link"
                onClick={() => actions.pick([{ kind: 'opening', id: opening.id, roof: roof.id }])}
              >
                {opening.name}
              </button>
            }
            figure={
              <Choice
                label={`Kind of ${opening.name}`}
                value={opening.kind}
                options={OPENING_WORDS}
                onChoose={(kind) =>
                  actions.run({ kind: 'setOpening', opening: opening.id, fields: { kind } })
                }
              />
            }
            reason={areaOf(built?.roof?.openings.find((one) => one.id === opening.id)?.area, display)}
          />
        ))}
        {openings.map((opening) => (
          <LedgerRow
            key={`${opening.id} blocks`}
            wide
            name={`Sheets at ${opening.name}`}
            figure={
              <BlocksChoice
                label={`How sheets pass ${opening.name}`}
                value={opening.blocks ?? null}
                onChoose={(blocks) =>
                  actions.run({ kind: 'setOpening', opening: opening.id, fields: { blocks } })
                }
              />
            }
          />
        ))}
      </Ledger>
      <RoofMarks roof={roof} />
    </Section>
  );
}

const areaOf = (area: number | undefined, display: 'metric' | 'imperial'): string =>
  area === undefined ? '' : formatArea(area, display);

function FallRows({ roof }: { readonly roof: JobRoof }) {
  const { job, actions } = useLive();
  const { fall } = roof;
  const set = (next: JobRoof['fall']): string | null =>
    actions.run({ kind: 'setRoof', roof: roof.id, fields: { fall: next } }, 'Set fall');
  return (
    <>
      <LedgerRow
        name="Water runs"
        figure={
          <DraftField
            label={`Downhill direction of ${roof.name}`}
            shown={fall ? formatAngle(fall.downhill) : ''}
            placeholder="no fall"
            onCommit={(text) => {
              if (text.trim() === '') return set(null);
              const parsed = parseAngle(text);
              return 'fault' in parsed
                ? parsed.fault
                : set({ downhill: parsed.degrees, ratio: fall?.ratio ?? null });
            }}
          />
        }
        reason={fall ? compass(fall.downhill) : 'no fall given'}
      />
      {fall && (
        <LedgerRow
          name="Fall"
          figure={
            <DraftField
              label={`Fall of ${roof.name}`}
              shown={fall.ratio === null ? '' : formatFall(fall.ratio, job.display)}
              placeholder="not known"
              onCommit={(text) => {
                if (text.trim() === '') return set({ ...fall, ratio: null });
                const parsed = parseFall(text);
                return 'fault' in parsed ? parsed.fault : set({ ...fall, ratio: parsed.ratio });
              }}
            />
          }
          reason="rise over run"
        />
      )}
    </>
  );
}

const compass = (degrees: number): string =>
  [
    'to the right',
    'right and up',
    'up the sheet',
    'left and up',
    'to the left',
    'left and down',
    'down the sheet',
    'right and down',
  ][Math.round(degrees / 45) % 8] ?? '';
