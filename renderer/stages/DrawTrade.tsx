// Lines, falls and flutes: what the rules of the trade rest on, drawn on the plan.
import { formatFall, parseFall } from '../../core/units/angles';
import type { LineKind } from '../../core/roof/types';
import { Choice } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { useLive } from './session';
import { ToolButton } from './ToolButton';

export const LINE_WORDS: readonly { value: LineKind; text: string }[] = [
  { value: 'expansion', text: 'Expansion joint' },
  { value: 'tie-in', text: 'Tie-in to a roof' },
  { value: 'phase', text: 'Phase line' },
  { value: 'valley', text: 'Valley' },
];

const FALL_WORDS = [
  { value: 'roof', text: 'The roof' },
  { value: 'part', text: 'A part' },
  { value: 'drain', text: 'To a drain' },
] as const;

const FLUTE_WORDS = [
  { value: 'direction', text: 'Direction only' },
  { value: 'flange', text: 'On a top flange’s middle' },
] as const;

export function DrawTrade() {
  const { job, view, actions } = useLive();
  const { line, fall, flute } = view.options;
  return (
    <>
      <div className="draw-row">
        <ToolButton tool="drawLine" name="Line" />
        <span className="draw-options single">
          <Choice
            label="Kind of line"
            value={line.kind}
            options={LINE_WORDS}
            onChoose={(kind) => actions.setOptions({ line: { kind } })}
          />
        </span>
      </div>
      <div className="draw-row">
        <ToolButton tool="drawFall" name="Fall" />
        <span className="draw-options short">
          <Choice
            label="What falls"
            value={fall.way}
            options={FALL_WORDS}
            onChoose={(way) => {
              actions.setOptions({ fall: { ...fall, way } });
              actions.chooseTool('drawFall');
            }}
          />
          <DraftField
            label="Slope of the next fall"
            shown={fall.ratio === null ? '' : formatFall(fall.ratio, job.display)}
            placeholder="slope"
            onCommit={(text) => {
              const parsed = text.trim() === '' ? { ratio: null } : parseFall(text);
              if ('fault' in parsed) return parsed.fault;
              actions.setOptions({ fall: { ...fall, ratio: parsed.ratio } });
              return null;
            }}
          />
        </span>
      </div>
      <div className="draw-row">
        <ToolButton tool="alongFlute" name="Flutes" />
        <span className="draw-options single">
          <Choice
            label="What clicks along a flute give"
            value={flute.gives}
            options={FLUTE_WORDS}
            onChoose={(gives) => actions.setOptions({ flute: { gives } })}
          />
        </span>
      </div>
    </>
  );
}
