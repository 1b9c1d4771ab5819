// Dragging a course to another day with the mouse or a pen: a press that moves far enough becomes a drag, and the job
// is previewed for the day under the pointer. A finger scrolls; it picks a course up and sets it down by two touches.
import { useEffect, useRef, useState } from 'react';
import type { PointerEvent as Press } from 'react';

export interface CoursePlace {
  readonly roof: string;
  readonly course: number;
  /** As its sheets' names say it. */
  readonly name: string;
}

export interface CourseDrag {
  readonly course: CoursePlace;
  /** The day under the pointer, null while it is over none. */
  readonly day: number | null;
  readonly x: number;
  readonly y: number;
}

interface DragPorts {
  /** Over another day, or over none. */
  readonly onOver: (course: CoursePlace, day: number | null) => void;
  /** Let go: what was previewed last stands. */
  readonly onDrop: () => void;
  readonly onCancel: () => void;
}

/** px that a press may wander and still be a click. */
const THRESHOLD_PX = 6;

/** The press goes on the chip; the rest is heard on the window, since the chip may move to another day meanwhile. */
export function useCourseDrag(ports: DragPorts): {
  readonly drag: CourseDrag | null;
  readonly press: (course: CoursePlace, event: Press) => void;
} {
  const [drag, setDrag] = useState<CourseDrag | null>(null);
  const latest = useRef(ports);
  useEffect(() => {
    latest.current = ports;
  });
  const stop = useRef<() => void>(() => undefined);
  useEffect(() => () => stop.current(), []);

  const press = (course: CoursePlace, event: Press): void => {
    if (event.button !== 0 || event.pointerType === 'touch') return;
    const start = [event.clientX, event.clientY] as const;
    let over: number | null | undefined;
    const move = (now: PointerEvent): void => {
      const far = Math.hypot(now.clientX - start[0], now.clientY - start[1]);
      if (over === undefined && far < THRESHOLD_PX) return;
      const day = dayAt(now.clientX, now.clientY);
      setDrag({ course, day, x: now.clientX, y: now.clientY });
      if (day !== over) latest.current.onOver(course, day);
      over = day;
    };
    const end = (): void => {
      stop.current();
      setDrag(null);
    };
    const up = (): void => {
      end();
      if (over === undefined) return;
      // The click that follows a drag is none.
      window.addEventListener('click', swallow, { capture: true, once: true });
      window.setTimeout(() => window.removeEventListener('click', swallow, { capture: true }), 0);
      latest.current.onDrop();
    };
    const away = (): void => {
      end();
      if (over !== undefined) latest.current.onCancel();
    };
    const key = (pressed: KeyboardEvent): void => {
      if (pressed.key !== 'Escape') return;
      pressed.preventDefault();
      away();
    };
    stop.current = () => {
      window.removeEventListener('pointermove', move);
      window.removeEventListener('pointerup', up);
      window.removeEventListener('pointercancel', away);
      window.removeEventListener('keydown', key, { capture: true });
    };
    window.addEventListener('pointermove', move);
    window.addEventListener('pointerup', up);
    window.addEventListener('pointercancel', away);
    window.addEventListener('keydown', key, { capture: true });
  };
  return { drag, press };
}

function swallow(event: Event): void {
  event.stopPropagation();
  event.preventDefault();
}

function dayAt(x: number, y: number): number | null {
  const day = document.elementFromPoint(x, y)?.closest<HTMLElement>('[data-day]')?.dataset['day'];
  return day === undefined ? null : Number(day);
}
