// Where the plan is looked at from: fitting, zooming, bringing a spot into the middle.
import { centreOn, fitBox, pageToScreen, panBy, zoomAbout } from '../canvas/camera';
import type { CameraState } from '../canvas/PlanCanvas';
import type { Editor } from '../document/editor';
import { ringsOnPage } from '../document/rings';
import { createStore } from '../document/store';
import type { Store } from '../document/store';
import type { ViewState } from '../document/view';
import type { PagePoint } from '../../core/geometry/points';

export interface CameraActions {
  readonly state: Store<CameraState>;
  fit(): void;
  zoom(factor: number): void;
  jumpTo(at: PagePoint): void;
  /** Moves the sheet only where the spot is out of sight. */
  bringIn(at: PagePoint): void;
  panByPage(by: PagePoint): void;
}

const MARGIN_PX = 56;
/** Nearer to the plan's edge than this is out of sight. */
const EDGE_PX = 12;
/** A spot is shown with at least this many pixels to a point of the page. */
const SPOT_SCALE = 1.6;

export function createCameraActions(editor: Editor, view: Store<ViewState>): CameraActions {
  const state = createStore<CameraState>({
    camera: { scale: 1, tx: 0, ty: 0 },
    size: { width: 0, height: 0 },
  });
  let fitted = false;

  const fit = (): void => {
    const { size } = state.get();
    fitted = size.width > 0;
    if (!fitted) return;
    const { job } = editor.state.get();
    const id = view.get().page;
    const page = id === null ? undefined : job.pages[id];
    if (!page) return;
    const corners = ringsOnPage(job, page.id).flatMap((ring) => ring.edges.map((edge) => edge.at));
    const xs = corners.map((at) => at[0]);
    const ys = corners.map((at) => at[1]);
    const box =
      corners.length > 0
        ? ([Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)] as const)
        : ([0, 0, page.width, page.height] as const);
    state.update((s) => ({ ...s, camera: fitBox(box, size, MARGIN_PX) }));
  };
  // The first size that the plan gets is the first chance to fit what is on it.
  state.subscribe((now, before) => {
    if (!fitted && now.size !== before.size) fit();
  });

  return {
    state,
    fit,
    zoom: (factor) =>
      state.update((s) => ({
        ...s,
        camera: zoomAbout(s.camera, [s.size.width / 2, s.size.height / 2], factor),
      })),
    jumpTo: (at) =>
      state.update((s) => ({
        ...s,
        camera: centreOn({ ...s.camera, scale: Math.max(s.camera.scale, SPOT_SCALE) }, at, s.size),
      })),
    bringIn: (at) =>
      state.update((s) => {
        const [x, y] = pageToScreen(s.camera, at);
        const inSight =
          x > EDGE_PX && y > EDGE_PX && x < s.size.width - EDGE_PX && y < s.size.height - EDGE_PX;
        return inSight ? s : { ...s, camera: centreOn(s.camera, at, s.size) };
      }),
    panByPage: (by) =>
      state.update((s) => ({
        ...s,
        camera: panBy(s.camera, by[0] * s.camera.scale, -by[1] * s.camera.scale),
      })),
  };
}
