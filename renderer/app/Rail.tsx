// The rail is the summary: each stage wears its live headline figure and what makes it trustworthy.
import { isLagging } from '../document/results';
import { STAGES } from '../document/view';
import type { Stage } from '../document/view';
import { STAGE_NAMES, headlineOf } from '../stages/headlines';
import type { Headline } from '../stages/headlines';
import { useStore } from '../ui/useStore';
import type { StartedSession } from './startSession';
import { FileMenu } from './FileMenu';

export function Rail({ session }: { readonly session: StartedSession }) {
  const { panels, editor, savedAt } = session;
  const document = useStore(editor.state);
  const { job, unsaved, target } = document;
  const { stage, page: pageId } = useStore(panels.view);
  const results = useStore(panels.results);
  const saved = useStore(savedAt);
  const page = (pageId === null ? undefined : job.pages[pageId]) ?? null;
  const lagging = isLagging(results, document);
  return (
    <header className="rail">
      <div className="rail-job">
        <FileMenu session={session} name={job.about.name} />
        <span className="soft">{savedWords(unsaved, target, saved)}</span>
      </div>
      <nav aria-label="Stages">
        {STAGES.map((one) => (
          <RailButton
            key={one}
            stage={one}
            current={one === stage}
            lagging={lagging && one !== 'plan'}
            headline={headlineOf(one, job, page, results.estimate)}
            onChoose={() => panels.actions.setStage(one)}
          />
        ))}
      </nav>
    </header>
  );
}

interface RailButtonProps {
  readonly stage: Stage;
  readonly current: boolean;
  readonly lagging: boolean;
  readonly headline: Headline;
  readonly onChoose: () => void;
}

function RailButton({ stage, current, lagging, headline, onChoose }: RailButtonProps) {
  return (
    <button
      type="button"
      aria-current={current ? 'page' : undefined}
      data-lagging={lagging}
      data-stage={stage}
      onClick={onChoose}
    >
      <span className="rail-name">{STAGE_NAMES[stage]}</span>
      <span className="rail-figure">{headline.figure}</span>
      <span className={headline.wrong ? 'rail-reason wrong-text' : 'rail-reason'}>{headline.reason}</span>
    </button>
  );
}

function savedWords(unsaved: boolean, target: string | null, savedAt: number | null): string {
  if (unsaved) return 'changes not saved';
  if (savedAt !== null) return `saved at ${new Date(savedAt).toTimeString().slice(0, 5)}`;
  return target === null ? 'not saved to a file yet' : 'as on disk';
}
