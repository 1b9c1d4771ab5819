// The plan by keyboard: arrows nudge what is picked, move a drawing tool's pointer, or else the sheet; Space
// clicks where that pointer stands and, held, drags the sheet; typing goes to the field over the plan.
import { toolOf } from '../tools/toolState';
import type { ToolHost } from '../tools/host';
import type { Store } from '../document/store';
import { FULL_SIZE, panBy, screenToPage, zoomAbout } from './camera';
import type { ScreenPoint } from './camera';
import { keysOf } from './pointing';
import type { CameraState, PlanCanvasProps } from './PlanCanvas';

export interface PlanKeysState {
  /** When Space went down; 0 while it is up. */
  spaceAt: number;
  spaceDragged: boolean;
  /** Where a drawing tool's pointer stands on the screen. */
  pointer: ScreenPoint | null;
}

interface PlanKeys {
  readonly host: ToolHost;
  readonly camera: Store<CameraState>;
  readonly keys: PlanKeysState;
  readonly now: () => PlanCanvasProps;
}

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
const PAN_PX = 60;
const STEP_PX = 10;
const NUDGE_MM = 10;

/** True where the key meant something here. */
export function handleKey(event: KeyboardEvent, plan: PlanKeys): boolean {
  const { host, camera, keys, now } = plan;
  const { key } = event;
  const middle: ScreenPoint = [camera.get().size.width / 2, camera.get().size.height / 2];
  const zoom = (factor: number): true => {
    camera.update((c) => ({ ...c, camera: zoomAbout(c.camera, keys.pointer ?? middle, factor) }));
    return true;
  };
  if (event.ctrlKey || event.metaKey) {
    if (key === '=' || key === '+') return zoom(1.25);
    if (key === '-') return zoom(0.8);
    if (key !== '0') return false;
    now().onFit();
    return true;
  }
  if (event.altKey) return false;
  const arrow = ARROWS[key];
  if (arrow) return moveByArrow(arrow, event, plan);
  switch (key) {
    case ' ':
      if (keys.spaceAt === 0) {
        keys.spaceAt = event.timeStamp || 1;
        keys.spaceDragged = false;
      }
      return true;
    case 'Escape':
      host.send({ type: 'cancel' });
      return true;
    case 'Enter':
      host.send({ type: 'complete' });
      return true;
    case 'Backspace':
      host.send({ type: 'back' });
      return true;
    case 'Delete':
      host.send({ type: 'delete' });
      return true;
    case '+':
    case '=':
      return zoom(1.25);
    case '-':
      return zoom(0.8);
    case 'Home':
      now().onFit();
      return true;
  }
  if (!/^[\d.'"]$/.test(key)) return false;
  now().onTyping(key);
  return true;
}

export function handleKeyUp(event: KeyboardEvent, { host, camera, keys }: PlanKeys): void {
  if (event.key !== ' ' || keys.spaceAt === 0) return;
  const clicked = !keys.spaceDragged && event.timeStamp - keys.spaceAt < 400;
  keys.spaceAt = 0;
  if (!clicked || !keys.pointer) return;
  const at = screenToPage(camera.get().camera, keys.pointer);
  host.send({ type: 'down', at, keys: keysOf(event) });
  host.send({ type: 'up', at, keys: keysOf(event) });
}

function moveByArrow(arrow: readonly [number, number], event: KeyboardEvent, plan: PlanKeys): true {
  const { host, camera, keys, now } = plan;
  const tool = toolOf(host.state.get());
  if (tool === 'select' && now().document.get().selection.length > 0) {
    host.send({ type: 'nudge', direction: arrow, mm: event.shiftKey ? NUDGE_MM * 10 : NUDGE_MM });
    return true;
  }
  if (tool === 'select' || tool === 'pan') {
    camera.update((c) => ({ ...c, camera: panBy(c.camera, -arrow[0] * PAN_PX, arrow[1] * PAN_PX) }));
    return true;
  }
  const { size } = camera.get();
  const from = keys.pointer ?? [size.width / 2, size.height / 2];
  const step = event.shiftKey ? 1 : STEP_PX;
  keys.pointer = [from[0] + arrow[0] * step, from[1] - arrow[1] * step];
  host.send({
    type: 'move',
    at: screenToPage(camera.get().camera, keys.pointer),
    keys: { shift: false, alt: event.shiftKey, ctrl: false },
  });
  return true;
}

export function zoomPercent(scale: number): number {
  return Math.round((scale / FULL_SIZE) * 100);
}
