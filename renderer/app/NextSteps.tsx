// What a newcomer does next, one line a step; it goes away once there is a price.
import { formatScale } from '../../core/units/scales';
import { scaleCommand } from '../stages/scaleCommand';
import { useLive, useSession } from '../stages/session';
import { useStore } from '../ui/useStore';

export function NextSteps() {
  const { job, view, actions } = useLive();
  const reading = useStore(useSession().reading);
  const pages = Object.values(job.pages);
  const page = view.page === null ? undefined : job.pages[view.page];
  if (Object.keys(job.roofs).length > 0) return null;
  const says = reading.scale.candidates[0];
  const steps = [
    {
      done: pages.length > 0,
      text: 'Import the roof plan: drop a PDF or DXF anywhere here.',
      act: { name: 'Import a plan', run: actions.importPlan },
    },
    {
      done: Boolean(page?.scale),
      text: says
        ? `Set the scale: the sheet says ${formatScale(says.ratio, job.display)}.`
        : 'Set the scale: a ratio, or two points and a length you know.',
      act: {
        name: says ? `Take ${formatScale(says.ratio, job.display)}` : 'Set the scale',
        run: () => {
          actions.setStage('plan');
          if (says && page) actions.run(scaleCommand(page.id, says));
          else actions.chooseTool('setScale');
        },
      },
    },
    {
      done: false,
      text: reading.raster
        ? 'Trace the roof: click its corners one after another, then the first again.'
        : 'Take the roof from the drawing: one click inside it. Or trace it corner by corner.',
      act: {
        name: reading.raster ? 'Trace a roof' : 'Take a roof',
        run: () => {
          actions.setStage('roof');
          actions.chooseTool(reading.raster ? 'traceRoof' : 'traceRegion');
        },
      },
    },
    { done: false, text: 'Read sheets, welds, order and price in the stages above.', act: null },
  ];
  const next = steps.findIndex((step) => !step.done);
  return (
    <ol className="steps" aria-label="What to do next">
      {steps.map((step, k) => (
        <li key={step.text} className={step.done ? 'done' : k === next ? 'next' : undefined}>
          <span>{step.text}</span>
          {k === next && step.act && (
            <button type="button" className="primary" onClick={step.act.run}>
              {step.act.name}
            </button>
          )}
        </li>
      ))}
    </ol>
  );
}
