// The plan: the page's picture beneath, the drawing above, and a hand's events turned into the tool's.
import { useEffect, useRef } from 'react';
import type { DocumentState } from '../document/editor';
import type { Results } from '../document/results';
import type { Store } from '../document/store';
import type { ViewState } from '../document/view';
import type { PagePainter } from '../pdf/pagePainter';
import type { ToolHost } from '../tools/host';
import { showTool, toolOf } from '../tools/toolState';
import { panBy, screenToPage, zoomAbout } from './camera';
import type { Camera, ScreenPoint, Size } from './camera';
import { INKS } from './ink';
import { createLowerSheet } from './lowerSheet';
import type { LaidThread } from './laidThread';
import { paintUpper } from './paintUpper';
import { gatherScene } from './scene';
import { keysOf, wheelFactor } from './pointing';
import { handleKey, handleKeyUp } from './planKeys';
import type { PlanKeysState } from './planKeys';

export interface CameraState {
  readonly camera: Camera;
  readonly size: Size;
}

export interface PlanCanvasProps {
  readonly document: Store<DocumentState>;
  readonly results: Store<Results>;
  readonly view: Store<ViewState>;
  readonly camera: Store<CameraState>;
  readonly host: ToolHost;
  readonly makePainter: (frame: HTMLElement) => PagePainter;
  readonly laidThread: LaidThread;
  readonly theme: Store<'light' | 'dark'>;
  /** A character that begins something typed goes to the field over the plan. */
  readonly onTyping: (char: string) => void;
  readonly onFit: () => void;
}

export function PlanCanvas(props: PlanCanvasProps) {
  const frame = useRef<HTMLDivElement>(null);
  const paper = useRef<HTMLDivElement>(null);
  const laid = useRef<HTMLCanvasElement>(null);
  const drawing = useRef<HTMLCanvasElement>(null);
  const latest = useRef(props);
  latest.current = props;

  useEffect(() => {
    if (!frame.current || !paper.current || !laid.current || !drawing.current) return;
    const sheets = { paper: paper.current, laid: laid.current, canvas: drawing.current };
    return attach(frame.current, sheets, () => latest.current);
  }, []);

  return (
    <div className="plan" ref={frame}>
      <div className="plan-page" ref={paper} aria-hidden="true" />
      <canvas className="plan-laid" ref={laid} aria-hidden="true" />
      <canvas
        className="plan-drawing"
        ref={drawing}
        role="application"
        aria-label="Plan"
        aria-describedby="plan-hint"
        tabIndex={0}
      />
    </div>
  );
}

interface Sheets {
  readonly paper: HTMLElement;
  readonly laid: HTMLCanvasElement;
  readonly canvas: HTMLCanvasElement;
}

/** Wires stores and events to the three canvases; returns how to undo it. */
function attach(frame: HTMLElement, { paper, laid, canvas }: Sheets, now: () => PlanCanvasProps): () => void {
  const { document: jobStore, results, view, camera, host, theme } = now();
  const painter = now().makePainter(paper);
  const keys: PlanKeysState = { spaceAt: 0, spaceDragged: false, pointer: null };
  let pending = 0;
  let hovering = false;
  let pan: { id: number; from: ScreenPoint } | null = null;
  const touches = new Map<number, ScreenPoint>();

  painter.onSettled((settled) => {
    canvas.dataset.settled = String(settled);
  });

  const paint = (): void => {
    pending = 0;
    const { camera: at, size } = camera.get();
    const ratio = window.devicePixelRatio || 1;
    const [w, h] = [Math.round(size.width * ratio), Math.round(size.height * ratio)];
    if (canvas.width !== w) canvas.width = w;
    if (canvas.height !== h) canvas.height = h;
    canvas.dataset.camera = `${at.scale} ${at.tx} ${at.ty}`;
    canvas.dataset.tool = host.state.get().at;
    const showing = showTool(host.state.get(), host.shownView());
    const held = keys.spaceAt > 0 || pan !== null;
    canvas.style.cursor = held
      ? 'grab'
      : hovering && showing.cursor === 'default'
        ? 'pointer'
        : showing.cursor;
    const ctx = canvas.getContext('2d');
    if (!ctx) return;
    ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
    const { job, revision, selection } = jobStore.get();
    const known = results.get();
    const scene = gatherScene({
      camera: at,
      size,
      ink: INKS[theme.get()],
      job,
      view: view.get(),
      selection,
      estimate: known.estimate,
      drawings: known.drawings,
      lagging: known.revision !== revision,
      marks: showing.marks,
      drawingTool: toolOf(host.state.get()) !== 'select',
    });
    lower.paint(scene, ratio, known.drawn);
    paintUpper(ctx, scene);
    const shade = theme.get();
    const pale = view.get().stage !== 'plan';
    painter.paint({ camera: at, ...size }, { colour: INKS[shade].paper, theme: shade, pale });
  };
  const repaint = (): void => {
    if (pending === 0) pending = window.requestAnimationFrame(paint);
  };
  const lower = createLowerSheet(laid, now().laidThread, repaint);

  const at = (event: { clientX: number; clientY: number }): ScreenPoint => {
    const box = canvas.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  const moveCamera = (next: Camera): void => camera.update((c) => ({ ...c, camera: next }));
  const toTool = (type: 'down' | 'move' | 'up' | 'double', event: PointerEvent | MouseEvent): void => {
    const point = screenToPage(camera.get().camera, at(event));
    keys.pointer = at(event);
    host.send({ type, at: point, keys: keysOf(event) });
  };

  const onDown = (event: PointerEvent): void => {
    canvas.focus({ preventScroll: true });
    canvas.setPointerCapture(event.pointerId);
    if (event.pointerType === 'touch') touches.set(event.pointerId, at(event));
    if (touches.size === 2) return host.send({ type: 'interrupt' });
    if (event.button === 1 || keys.spaceAt > 0) {
      keys.spaceDragged = true;
      pan = { id: event.pointerId, from: at(event) };
      event.preventDefault();
      return;
    }
    if (event.button === 0) toTool('down', event);
  };
  const onMove = (event: PointerEvent): void => {
    if (touches.size === 2 && touches.has(event.pointerId)) return pinch(event);
    if (pan?.id === event.pointerId) {
      const to = at(event);
      moveCamera(panBy(camera.get().camera, to[0] - pan.from[0], to[1] - pan.from[1]));
      pan = { id: pan.id, from: to };
      return;
    }
    toTool('move', event);
    const over = host.shownView().hit(screenToPage(camera.get().camera, at(event)));
    if (hovering !== (over !== null)) {
      hovering = over !== null;
      repaint();
    }
  };
  const pinch = (event: PointerEvent): void => {
    const [a, b] = [...touches.values()];
    touches.set(event.pointerId, at(event));
    const [c, d] = [...touches.values()];
    if (!a || !b || !c || !d) return;
    const before = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    const middle: ScreenPoint = [(c[0] + d[0]) / 2, (c[1] + d[1]) / 2];
    const zoomed = zoomAbout(camera.get().camera, middle, Math.hypot(d[0] - c[0], d[1] - c[1]) / before);
    moveCamera(panBy(zoomed, middle[0] - (a[0] + b[0]) / 2, middle[1] - (a[1] + b[1]) / 2));
  };
  const onUp = (event: PointerEvent): void => {
    touches.delete(event.pointerId);
    if (pan?.id === event.pointerId) {
      pan = null;
      return repaint();
    }
    if (event.button === 0) toTool('up', event);
  };
  const onLost = (event: PointerEvent): void => {
    touches.delete(event.pointerId);
    pan = null;
    host.send({ type: 'interrupt' });
  };
  const onDouble = (event: MouseEvent): void => {
    toTool('double', event);
  };
  const onWheel = (event: WheelEvent): void => {
    event.preventDefault();
    const { camera: before } = camera.get();
    moveCamera(
      event.shiftKey && !event.ctrlKey
        ? panBy(before, -(event.deltaX || event.deltaY), 0)
        : zoomAbout(before, at(event), wheelFactor(event)),
    );
  };
  const planKeys = { host, camera, keys, now };
  const onKey = (event: KeyboardEvent): void => {
    if (handleKey(event, planKeys)) event.preventDefault();
    repaint();
  };
  const onKeyUp = (event: KeyboardEvent): void => {
    handleKeyUp(event, planKeys);
    repaint();
  };
  const onBlur = (): void => {
    keys.spaceAt = 0;
  };

  const watched = new ResizeObserver(() => {
    const { width, height } = frame.getBoundingClientRect();
    if (width > 0 && height > 0) camera.update((c) => ({ ...c, size: { width, height } }));
  });
  watched.observe(frame);
  canvas.addEventListener('pointerdown', onDown);
  canvas.addEventListener('pointermove', onMove);
  canvas.addEventListener('pointerup', onUp);
  canvas.addEventListener('pointercancel', onLost);
  canvas.addEventListener('dblclick', onDouble);
  canvas.addEventListener('wheel', onWheel, { passive: false });
  canvas.addEventListener('keydown', onKey);
  canvas.addEventListener('keyup', onKeyUp);
  canvas.addEventListener('blur', onBlur);
  const undo = [jobStore, results, view, camera, host.state, theme].map((store) =>
    (store as Store<unknown>).subscribe(repaint),
  );
  void document.fonts.ready.then(repaint);
  repaint();
  return () => {
    watched.disconnect();
    window.cancelAnimationFrame(pending);
    painter.close();
    lower.close();
    for (const stop of undo) stop();
    canvas.removeEventListener('pointerdown', onDown);
    canvas.removeEventListener('pointermove', onMove);
    canvas.removeEventListener('pointerup', onUp);
    canvas.removeEventListener('pointercancel', onLost);
    canvas.removeEventListener('dblclick', onDouble);
    canvas.removeEventListener('wheel', onWheel);
    canvas.removeEventListener('keydown', onKey);
    canvas.removeEventListener('keyup', onKeyUp);
    canvas.removeEventListener('blur', onBlur);
  };
}
