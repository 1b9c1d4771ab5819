// A button that takes up a tool of the plan, and lays it down again.
import type { ToolName } from '../tools/types';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

interface ToolButtonProps {
  readonly tool: ToolName;
  readonly name: string;
  readonly disabled?: boolean;
}

export function ToolButton({ tool, name, disabled = false }: ToolButtonProps) {
  const { actions } = useLive();
  const on = useStore(useSession().tool).at.split('.')[0] === tool;
  return (
    <button
      type="button"
      className={on ? 'tool on' : 'tool'}
      aria-pressed={on}
      disabled={disabled}
      onClick={() => actions.chooseTool(on ? 'select' : tool)}
    >
      {name}
    </button>
  );
}
