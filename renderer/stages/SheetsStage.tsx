// The membrane system, which way it is laid, and every sheet, lap and T-joint by name.
import { useState } from 'react';
import { formatLength } from '../../core/units/lengths';
import { formatAngle, parseAngle, turn } from '../../core/units/angles';
import type { RoofEstimate } from '../../core/job/result';
import type { Job, JobRoof } from '../../core/job/schema';
import type { PickedKind } from '../document/picked';
import { Choice } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { Drawer, Ledger, LedgerRow, ObjectName, RestsLegend, Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { FasteningPanel } from './FasteningPanel';
import { QuantityRows } from './QuantityRows';
import { SearchPanel } from './SearchPanel';
import { quantitiesFor, reasonsFor } from './quantitiesFor';
import { KeepToggle, PinPanel } from './PinPanel';
import { RefitPanel } from './RefitPanel';
import { SystemPanel } from './SystemPanel';
import { TradeRulesPanel } from './TradeRulesPanel';
import { useLive, useSession } from './session';

export function SheetsStage() {
  const { job, estimate } = useLive();
  const roofs = Object.values(job.roofs);
  return (
    <>
      <Section title="Sheets">
        <Ledger label="Sheets">
          {roofs.map((roof) => (
            <LayingRows key={roof.id} roof={roof} several={roofs.length > 1} />
          ))}
          {estimate && (
            <QuantityRows
              quantities={quantitiesFor('sheets', estimate.quantities)}
              reasons={reasonsFor(job, estimate)}
            />
          )}
        </Ledger>
        <RestsLegend />
        {estimate && <Notes roofs={estimate.roofs} />}
      </Section>
      {estimate && <RefitPanel roofs={estimate.roofs} />}
      <PinPanel />
      <SearchPanel />
      <SystemPanel />
      {estimate && <FasteningPanel roofs={estimate.roofs} />}
      <TradeRulesPanel />
      {estimate && <LaidObjects roofs={estimate.roofs} />}
    </>
  );
}

function LayingRows({ roof, several }: { readonly roof: JobRoof; readonly several: boolean }) {
  const { job, estimate, actions } = useLive();
  const layout = estimate?.roofs.find((one) => one.id === roof.id)?.layout;
  const { laying } = roof;
  const set = (next: JobRoof['laying'], label: string): string | null =>
    actions.run({ kind: 'setRoof', roof: roof.id, fields: { laying: next } }, label);
  const name = several ? `Direction, ${roof.name}` : 'Direction';
  const direction = laying.direction === 'auto' ? layout?.rules.direction : laying.direction;
  return (
    <>
      <LedgerRow
        name={name}
        figure={
          <DraftField
            label={`Laying direction of ${roof.name}`}
            shown={direction === undefined ? '' : formatAngle(direction)}
            onCommit={(text) => {
              if (/^\s*(auto)?\s*$/i.test(text))
                return set({ ...laying, direction: 'auto' }, 'Lay automatically');
              const parsed = parseAngle(text);
              return 'fault' in parsed
                ? `${parsed.fault} Or write auto.`
                : set({ ...laying, direction: turn(parsed.degrees, 180) }, 'Turn courses');
            }}
          />
        }
        reason={
          laying.direction === 'auto' ? (
            'chosen: the better of two'
          ) : (
            <>
              <button
                type="button"
                className="quiet"
                onClick={() => set({ ...laying, direction: 'auto' }, 'Lay automatically')}
              >
                typed · choose for me
              </button>
              <KeepToggle roof={roof} what="direction" />
            </>
          )
        }
      />
      <LedgerRow
        name="First course"
        figure={
          <DraftField
            label={`First course of ${roof.name}`}
            shown={layout ? formatLength(layout.rules.firstCourse, job.display) : ''}
            onCommit={(text) =>
              readFirstCourse(text, layout ?? null, (value) =>
                set({ ...laying, firstCourse: value }, 'Shift first course'),
              )
            }
          />
        }
        reason={
          laying.firstCourse === null ? (
            'from the low edge'
          ) : (
            <>
              typed; empty for the low edge
              <KeepToggle roof={roof} what="firstCourse" />
            </>
          )
        }
      />
      <LedgerRow
        wide
        name="Last course"
        figure={
          <Choice
            label={`Last course of ${roof.name}`}
            value={closingWord(laying.closing)}
            options={closingOptions(job)}
            onChoose={(word) => set({ ...laying, closing: readClosing(word) }, 'Close the last course')}
          />
        }
        reason={<KeepToggle roof={roof} what="closing" />}
      />
      <LedgerRow
        wide
        name="Laid first"
        figure={
          <Choice
            label={`Laid first on ${roof.name}`}
            value={laying.order ?? 'water'}
            options={[
              { value: 'water', text: 'As the water asks' },
              { value: 'up', text: 'Course 1, each next one over it' },
              { value: 'down', text: 'The last course, each before over it' },
            ]}
            onChoose={(word) => set(withOrder(laying, word), 'Order the courses')}
          />
        }
      />
    </>
  );
}

function withOrder({ order: _, ...laying }: JobRoof['laying'], word: string): JobRoof['laying'] {
  return word === 'up' || word === 'down' ? { ...laying, order: word } : laying;
}

const MOST_LANES = 4;

function closingOptions(job: Job): readonly { value: string; text: string }[] {
  const field = job.rates.rolls.find((roll) => roll.id === job.system.roll);
  const narrower = job.rates.rolls.filter((roll) => field && roll.width < field.width);
  const lanes = Array.from({ length: MOST_LANES - 1 }, (_, k) => k + 2);
  return [
    { value: 'whole', text: 'A whole sheet' },
    ...narrower.map((roll) => ({ value: `narrow ${roll.id}`, text: roll.name })),
    ...lanes.map((count) => ({ value: `rip ${count}`, text: `Slit in ${count} lanes` })),
  ];
}

function closingWord(closing: JobRoof['laying']['closing']): string {
  if (!closing) return 'whole';
  return closing.kind === 'narrow' ? `narrow ${closing.roll}` : `rip ${closing.lanes}`;
}

function readClosing(word: string): JobRoof['laying']['closing'] {
  if (word.startsWith('narrow ')) return { kind: 'narrow', roll: word.slice('narrow '.length) };
  return word.startsWith('rip ') ? { kind: 'rip', lanes: Number(word.slice('rip '.length)) } : null;
}

/** How far course 1 hangs below the low edge: typed as a plain number of millimetres, with or without minus. */
function readFirstCourse(
  text: string,
  layout: RoofEstimate['layout'],
  set: (value: number | null) => string | null,
): string | null {
  const plain = text
    .replace(/mm|\s|\u202f/g, '')
    .replace('\u2212', '-')
    .replace(',', '.');
  if (plain === '') return set(null);
  const value = -Math.abs(Number(plain));
  if (!Number.isFinite(value))
    return `“${text.trim()}” is not a number of millimetres. Write one such as −500.`;
  const cover = layout?.courses[0] ? layout.courses[0].width - layout.rules.sideLap : null;
  if (cover !== null && value <= -cover)
    return `Course 1 would miss the roof: type less than one cover width (${Math.round(cover)} mm).`;
  return set(value);
}

/** What the layout decided for itself, once for all roofs that share it. */
function Notes({ roofs }: { readonly roofs: readonly RoofEstimate[] }) {
  const laid = roofs.filter((roof) => roof.layout !== null);
  const notes = [...new Set(laid.flatMap((roof) => roof.layout?.notes ?? []))];
  return (
    <>
      {notes.map((note) => {
        const sharing = laid.filter((roof) => roof.layout?.notes.includes(note));
        const whose =
          sharing.length === laid.length ? '' : `${sharing.map((roof) => roof.name).join(', ')}: `;
        return (
          <p key={note} className="soft">
            {whose}
            {note}
          </p>
        );
      })}
    </>
  );
}

const SHOWN_AT_ONCE = 60;

/** Every laid object, by name; a click lights it on the plan. */
function LaidObjects({ roofs }: { readonly roofs: readonly RoofEstimate[] }) {
  const { job } = useLive();
  const length = (mm: number): string => formatLength(mm, job.display);
  const sheets = roofs.flatMap((roof) =>
    (roof.layout?.sheets ?? []).map((sheet) => ({
      id: sheet.id,
      roof: roof.id,
      figure: `${length(sheet.width)} × ${length(sheet.length)}`,
      reason: `roll ${sheet.cut.roll}`,
    })),
  );
  const laps = roofs.flatMap((roof) =>
    [...(roof.seams?.sideLaps ?? []), ...(roof.seams?.endLaps ?? [])].map((lap) => ({
      id: lap.id,
      roof: roof.id,
      figure: length(lap.length),
      reason: `${lap.kind} lap of ${length(lap.overlap)}, ${lap.over} over`,
    })),
  );
  const joints = roofs.flatMap((roof) =>
    (roof.seams?.tJoints ?? []).map((joint) => ({
      id: joint.id,
      roof: roof.id,
      figure: joint.endLap,
      reason: `on ${joint.sideLap}`,
    })),
  );
  return (
    <>
      <Drawer title={`Sheets, ${sheets.length}`}>
        <ObjectList kind="sheet" label="Sheets by name" items={sheets} />
      </Drawer>
      <Drawer title={`Laps, ${laps.length}`}>
        <ObjectList kind="lap" label="Laps by name" items={laps} />
      </Drawer>
      <Drawer title={`T-joints, ${joints.length}`}>
        <ObjectList kind="t-joint" label="T-joints by name" items={joints} />
      </Drawer>
    </>
  );
}

interface ListedObject {
  readonly id: string;
  readonly roof: string;
  readonly figure: string;
  readonly reason: string;
}

function ObjectList({
  kind,
  label,
  items,
}: {
  readonly kind: PickedKind;
  readonly label: string;
  readonly items: readonly ListedObject[];
}) {
  const { actions } = useLive();
  const { selection } = useStore(useSession().document);
  const [shown, setShown] = useState(SHOWN_AT_ONCE);
  return (
    <>
      <Ledger label={label} rows="named">
        {items.slice(0, shown).map((item) => (
          <LedgerRow
            key={item.id}
            name={
              <button
                type="button"
                className={selection.some((p) => p.id === item.id) ? 'link on' : 'link'}
                onClick={() => actions.pick([{ kind, id: item.id, roof: item.roof }])}
              >
                <ObjectName id={item.id} />
              </button>
            }
            figure={item.figure}
            reason={item.reason}
          />
        ))}
      </Ledger>
      {items.length > shown && (
        <button type="button" className="quiet" onClick={() => setShown(shown + 200)}>
          {items.length - shown} more
        </button>
      )}
    </>
  );
}
