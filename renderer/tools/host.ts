// The active tool: takes events, steps the machine, and carries its effects out on the editor. No React, no DOM;
// what only a screen can do (moving the camera) is passed in.
import type { PagePoint } from '../../core/geometry/points';
import type { Editor } from '../document/editor';
import { createStore } from '../document/store';
import type { Store } from '../document/store';
import { firstState, stepTool, toolOf } from './toolState';
import type { ToolState } from './toolState';
import type { Effect, LineKind, ToolEvent, ToolName, ToolView } from './types';

export interface ToolHostPorts {
  /** Everything of the view but the job and selection, which the host takes from the editor. */
  view(): Omit<ToolView, 'job' | 'selection'>;
  panBy(by: PagePoint): void;
  leaveOut(lines: LineKind): void;
  say(text: string, wrong: boolean): void;
}

export interface ToolHost {
  readonly state: Store<ToolState>;
  /** Where on the page the hand last was. */
  readonly pointer: Store<PagePoint | null>;
  send(event: ToolEvent): void;
  choose(tool: ToolName): void;
  /** The view that `show` is to be asked with: the job as it is on screen. */
  shownView(): ToolView;
}

export function createToolHost(editor: Editor, ports: ToolHostPorts): ToolHost {
  const state = createStore<ToolState>(firstState('select'));
  const pointer = createStore<PagePoint | null>(null);

  // Transitions see the settled job: a drag is always computed from the gesture's mark.
  const viewForSteps = (): ToolView => {
    const { settled, selection } = editor.state.get();
    return { ...ports.view(), job: settled, selection };
  };

  /** False where the job refused it. */
  const carryOut = (effect: Effect): boolean => {
    if (effect.do === 'run') {
      const refusal = editor.run(effect.commands, effect.label);
      if (refusal !== null) ports.say(refusal, true);
      return refusal === null;
    }
    show(effect);
    return true;
  };
  const show = (effect: Exclude<Effect, { do: 'run' }>): void => {
    switch (effect.do) {
      case 'begin':
        return editor.begin(effect.label);
      case 'preview': {
        const refusal = editor.preview(effect.commands);
        if (refusal !== null) ports.say(refusal, true);
        return;
      }
      case 'commit':
        return editor.commit(effect.selection ?? editor.state.get().selection);
      case 'revert':
        return editor.revert();
      case 'pick':
        return editor.pick(effect.selection);
      case 'leaveOut':
        return ports.leaveOut(effect.lines);
      case 'panBy':
        return ports.panBy(effect.by);
      case 'say':
        return ports.say(effect.text, effect.wrong);
      case 'goTo':
        return state.set(firstState(effect.tool));
    }
  };

  const send = (event: ToolEvent): void => {
    if ('at' in event) pointer.set(event.at);
    const before = state.get();
    const step = stepTool(before, event, viewForSteps());
    state.set(step.state);
    // Refused: the tool stands as it did, so that what was drawn can be set right.
    if (!step.effects.every(carryOut)) state.set(before);
  };

  return {
    state,
    pointer,
    send,
    choose(tool) {
      if (toolOf(state.get()) !== tool) send({ type: 'interrupt' });
      state.set(firstState(tool));
    },
    shownView: () => {
      const { job, selection } = editor.state.get();
      return { ...ports.view(), job, selection };
    },
  };
}
