// Under the plan: undo and redo, what the tool waits for, the field for what is typed, and the zoom.
import type { RefObject } from 'react';
import { zoomPercent } from '../canvas/planKeys';
import { regionAt, scaleAt } from '../../core/job/pageScale';
import { formatScale, ratioOf } from '../../core/units/scales';
import { formatNumber } from '../../core/units/numbers';
import { showTool } from '../tools/toolState';
import { TOOL_OPTIONS } from '../tools/types';
import { useStore } from '../ui/useStore';
import type { StartedSession } from './startSession';

interface StatusBarProps {
  readonly session: StartedSession;
  readonly typing: RefObject<HTMLInputElement | null>;
}

export function StatusBar({ session, typing }: StatusBarProps) {
  const { host, editor, panels } = session;
  const { undoLabel, redoLabel } = useStore(editor.state);
  const state = useStore(host.state);
  const { notice } = useStore(panels.view);
  const { camera } = useStore(session.camera);
  const recovered = useStore(session.recovered);
  const { failure, exactFollows, noExact } = useStore(panels.results);
  const showing = showTool(state, host.shownView());
  const backToPlan = (): void =>
    document.querySelector<HTMLElement>('canvas[role="application"]')?.focus({ preventScroll: true });
  return (
    <div className="status" data-tool={state.at}>
      <button
        type="button"
        className="quiet"
        disabled={undoLabel === null}
        title={undoLabel === null ? 'Nothing to undo' : `Undo: ${undoLabel} (Ctrl Z)`}
        onClick={panels.actions.undo}
      >
        Undo
      </button>
      <button
        type="button"
        className="quiet"
        disabled={redoLabel === null}
        title={redoLabel === null ? 'Nothing to do again' : `Redo: ${redoLabel} (Ctrl Y)`}
        onClick={panels.actions.redo}
      >
        Redo
      </button>
      {showing.typing !== null && (
        <label className="typing">
          {showing.typing}
          <input
            ref={typing}
            className="figure"
            spellCheck={false}
            autoComplete="off"
            autoFocus={state.at.endsWith('.typing')}
            onKeyDown={(event) => {
              const field = event.currentTarget;
              if (event.key === 'Enter') {
                if (field.value.trim() === '') host.send({ type: 'complete' });
                else host.send({ type: 'typed', text: field.value });
                field.value = '';
                if (!host.state.get().at.endsWith('.typing')) backToPlan();
              }
              if (event.key !== 'Escape') return;
              event.stopPropagation();
              if (field.value === '') host.send({ type: 'cancel' });
              field.value = '';
              backToPlan();
            }}
          />
        </label>
      )}
      <p id="plan-hint" className="hint" aria-live="polite">
        {recovered !== null && (
          <span className="recovered">
            Recovered unsaved work: {recovered.changes} {recovered.changes === 1 ? 'change' : 'changes'}.{' '}
            <button type="button" className="quiet" onClick={recovered.goBack}>
              Open as last saved
            </button>
            <button type="button" className="quiet" onClick={() => session.recovered.set(null)}>
              Keep
            </button>
          </span>
        )}
        {failure !== null && <span className="wrong-text">No estimate: {failure} </span>}
        {exactFollows && <span className="soft">Cut in haste; the exact cut follows. </span>}
        {noExact !== null && (
          <span className="wrong-text">
            No exact cut, so more rolls than needed are possible: {noExact}. The next change tries again.{' '}
          </span>
        )}
        {notice && <span className={notice.wrong ? 'wrong-text' : 'said'}>{notice.text} </span>}
        <span className="soft">{showing.hint}</span>
      </p>
      {showing.options && (
        <span className="tool-options">
          {showing.options.map(({ option, on }) => (
            <button
              key={option}
              type="button"
              className="quiet"
              aria-pressed={on}
              title={`Key ${TOOL_OPTIONS[option].key.toUpperCase()}`}
              onClick={() => {
                host.send({ type: 'option', option });
                backToPlan();
              }}
            >
              {TOOL_OPTIONS[option].name}
            </button>
          ))}
        </span>
      )}
      <ScaleHere session={session} />
      <span className="zoom">
        <button type="button" className="quiet" aria-label="Zoom out" onClick={() => session.zoom(0.8)}>
          −
        </button>
        <output aria-label="Zoom">{formatNumber(zoomPercent(camera.scale))} %</output>
        <button type="button" className="quiet" aria-label="Zoom in" onClick={() => session.zoom(1.25)}>
          +
        </button>
        <button type="button" className="quiet" onClick={session.fit}>
          Fit
        </button>
      </span>
    </div>
  );
}

/** The scale that holds where the hand is: a page may have several. */
function ScaleHere({ session: { host, editor, panels } }: Pick<StatusBarProps, 'session'>) {
  const pointer = useStore(host.pointer);
  const { job } = useStore(editor.state);
  const { page: id } = useStore(panels.view);
  const page = id === null ? undefined : job.pages[id];
  if (!page) return null;
  const at = pointer ?? ([0, 0] as const);
  const scale = scaleAt(page, at);
  return (
    <output aria-label="Scale here" className={scale ? 'scale-here' : 'scale-here soft'}>
      {scale ? formatScale(ratioOf(scale.mmPerPoint), job.display) : 'no scale'}
      {regionAt(page, at) && <span className="soft"> in a region</span>}
    </output>
  );
}
