// What a wheel and the held keys mean.
import type { Keys } from '../tools/types';

export function keysOf(event: {
  shiftKey: boolean;
  altKey: boolean;
  ctrlKey: boolean;
  metaKey: boolean;
}): Keys {
  return { shift: event.shiftKey, alt: event.altKey, ctrl: event.ctrlKey || event.metaKey };
}

const LINE_PX = 16;

/** A notch of a wheel is about a fifth; a pinch on a pad comes as a wheel with Ctrl held and small steps. */
export function wheelFactor(event: WheelEvent): number {
  const px = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? event.deltaY * LINE_PX : event.deltaY;
  const held = Math.max(-400, Math.min(400, px));
  return Math.exp(-held * (event.ctrlKey ? 0.008 : 0.0018));
}
