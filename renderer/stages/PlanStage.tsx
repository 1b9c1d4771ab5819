// Drawings and pages, and the scale with what proves it.
import { STRETCHED } from '../../core/plan/correction';
import { checkLength } from '../../core/plan/scale';
import { formatLength } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import { NAMED_SCALES, formatScale, mmPerPoint, parseScale, ratioOf } from '../../core/units/scales';
import { mmPerPointAt } from '../../core/job/pageScale';
import type { JobPage } from '../../core/job/schema';
import { Choice } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { Ledger, LedgerRow, Section } from '../ui/Ledger';
import { PageList } from './PageList';
import { ScaleRegions } from './ScaleRegions';
import { ScaleReadout } from './ScaleReadout';
import { useLive } from './session';
import { ShownLines } from './ShownLines';

export function PlanStage() {
  const { job, view, actions } = useLive();
  const page = view.page === null ? undefined : job.pages[view.page];
  return (
    <>
      <Section title="Drawings">
        <PageList />
        <p className="row-of-buttons">
          <button type="button" onClick={actions.importPlan}>
            Import a plan
          </button>
          <button type="button" onClick={actions.addBlankPage}>
            Blank sheet
          </button>
        </p>
      </Section>
      {page && <ScalePanel key={`scale ${page.id}`} page={page} />}
      {page && <ScaleRegions key={`regions ${page.id}`} page={page} />}
      {page && <Checks page={page} />}
      {page && <ShownLines page={page} />}
      <JobPanel />
    </>
  );
}

function ScalePanel({ page }: { readonly page: JobPage }) {
  const { job, actions } = useLive();
  const ratio = page.scale ? ratioOf(page.scale.mmPerPoint) : null;
  const setRatio = (value: number, text: string): string | null =>
    actions.run({
      kind: 'setScale',
      page: page.id,
      scale: { mmPerPoint: mmPerPoint(value), from: { by: 'ratio', ratio: value, text } },
    });
  const named = NAMED_SCALES.filter((scale) => scale.system === job.display);
  return (
    <Section title="Scale">
      <ScaleReadout page={page} />
      <div className="pair">
        <DraftField
          label="Scale of this sheet"
          labelled="visible"
          shown={ratio === null ? '' : formatScale(ratio, job.display)}
          placeholder={job.display === 'metric' ? '1 : 100' : `1/8" = 1'-0"`}
          onCommit={(text) => {
            const parsed = parseScale(text);
            return 'fault' in parsed ? parsed.fault : setRatio(parsed.ratio, text);
          }}
        />
        <Choice
          label="Named scale"
          labelled="visible"
          value={named.find((s) => ratio !== null && Math.abs(s.ratio / ratio - 1) < 1e-6)?.name ?? null}
          options={named.map((s) => ({ value: s.name, text: s.name }))}
          onChoose={(name) => {
            const scale = NAMED_SCALES.find((s) => s.name === name);
            if (scale) setRatio(scale.ratio, scale.name);
          }}
        />
      </div>
      <p className="row-of-buttons">
        <button type="button" onClick={() => actions.chooseTool('setScale')}>
          From two points and a length
        </button>
        <button type="button" onClick={() => actions.chooseTool('bothWays')}>
          From two lengths, both ways
        </button>
        <button type="button" onClick={() => actions.chooseTool('levelSheet')}>
          Level the sheet
        </button>
      </p>
      <p className="soft">{originOf(page, job.display)}</p>
      <SetRight page={page} />
    </Section>
  );
}

function SetRight({ page }: { readonly page: JobPage }) {
  const { actions } = useLive();
  const { correction } = page;
  if (!correction) return null;
  const { degrees, stretch } = correction;
  const turned = Math.abs(degrees) >= 0.005;
  const more = stretch - 1;
  return (
    <p className="soft">
      {turned &&
        `Turned by ${formatNumber(Math.abs(degrees), 2)}° ${degrees > 0 ? 'against' : 'with'} the clock. `}
      {Math.abs(more) >= 5e-5 && (
        <span className={Math.abs(more) > STRETCHED ? 'wrong-text' : undefined}>
          A point of the sheet stands for {formatNumber(100 * Math.abs(more), 2)} %{' '}
          {more > 0 ? 'more' : 'less'} up it than across; it is shown set right.{' '}
        </span>
      )}
      <button
        type="button"
        className="quiet"
        onClick={() =>
          actions.run(
            { kind: 'correctPage', page: page.id, degrees: 0, stretch: 1 },
            'Show the sheet as it comes',
          )
        }
      >
        Show it as it comes
      </button>
    </p>
  );
}

function originOf(page: JobPage, display: 'metric' | 'imperial'): string {
  const from = page.scale?.from;
  if (!from) return 'No scale is set, so nothing can be measured on this sheet yet.';
  switch (from.by) {
    case 'ratio':
      return `Set as ${from.text}.`;
    case 'length':
      return `Set from two points, ${formatLength(from.length, display)} apart.`;
    case 'lengths':
      return `Set from ${formatLength(from.across.length, display)} across the sheet and ${formatLength(from.up.length, display)} up it.`;
  }
}

function Checks({ page }: { readonly page: JobPage }) {
  const { job, actions } = useLive();
  if (!page.scale && !page.regions?.length) return null;
  return (
    <Section title="Checked against">
      {page.checks.length === 0 && (
        <p className="soft">
          Nothing yet. A second known length shows whether the sheet was printed to scale.
        </p>
      )}
      <Ledger label="Checks">
        {page.checks.map((check, index) => {
          const mmPerPoint = mmPerPointAt(page, check.a);
          if (mmPerPoint === null) return null;
          const { measured, offBy, percent } = checkLength({ ...check, mmPerPoint });
          const far = Math.abs(percent) > 1;
          return (
            <LedgerRow
              key={index}
              name={formatLength(check.length, job.display)}
              figure={formatLength(measured, job.display)}
              reason={
                <>
                  <span className={far ? 'wrong-text' : undefined}>
                    {Math.abs(offBy) < 0.5
                      ? 'exact'
                      : `${formatLength(Math.abs(offBy), job.display)} ${offBy > 0 ? 'long' : 'short'}, ${Math.abs(percent).toFixed(2)} %`}
                  </span>{' '}
                  <button
                    type="button"
                    className="quiet"
                    onClick={() => actions.run({ kind: 'removeCheck', page: page.id, index })}
                  >
                    Remove
                  </button>
                </>
              }
            />
          );
        })}
      </Ledger>
      <p className="row-of-buttons">
        <button type="button" onClick={() => actions.chooseTool('checkLength')}>
          Check a known length
        </button>
        <button type="button" onClick={() => actions.chooseTool('measure')}>
          Measure
        </button>
      </p>
    </Section>
  );
}

function JobPanel() {
  const { job, actions } = useLive();
  const text = (key: keyof typeof job.about, label: string) => (
    <DraftField
      label={label}
      labelled="visible"
      align="left"
      shown={job.about[key]}
      onCommit={(value) => actions.run({ kind: 'setAbout', fields: { [key]: value.trim() } })}
    />
  );
  return (
    <Section title="The job">
      <div className="stack">
        {text('name', 'Name')}
        {text('client', 'Client')}
        <div className="pair">
          {text('reference', 'Reference')}
          {text('date', 'Date')}
        </div>
        {text('preparedBy', 'Prepared by')}
        <Choice
          label="Lengths are shown in"
          labelled="visible"
          value={job.display}
          options={[
            { value: 'metric', text: 'Millimetres and metres' },
            { value: 'imperial', text: 'Feet and inches' },
          ]}
          onChoose={(display) => actions.run({ kind: 'setDisplay', display })}
        />
      </div>
    </Section>
  );
}
