// What the tools need of the window: hit testing, snapping, the camera.
import type { Editor } from '../document/editor';
import type { Results } from '../document/results';
import type { Store } from '../document/store';
import type { ViewState } from '../document/view';
import { findEndLap } from '../tools/endLaps';
import { hitTest } from '../tools/hit';
import { createToolHost } from '../tools/host';
import type { ToolHost } from '../tools/host';
import { createSnapper } from '../tools/snapping';
import { closedPathOn, lineKindOn, traceOn } from '../tools/tracing';
import type { CameraActions } from './cameraActions';
import type { PageFollower } from './pageReading';

/** How near to a line a click means it. */
const LINE_PX = 8;

interface HostPorts {
  readonly editor: Editor;
  readonly view: Store<ViewState>;
  readonly results: Store<Results>;
  readonly camera: CameraActions;
  readonly pages: PageFollower;
  readonly say: (text: string, wrong: boolean) => void;
}

export function createHostFor({ editor, view, results, camera, pages, say }: HostPorts): ToolHost {
  const snapper = createSnapper();
  const host = createToolHost(editor, {
    view() {
      const { page: id, options, stage } = view.get();
      const { settled: job } = editor.state.get();
      const page = (id === null ? undefined : job.pages[id]) ?? null;
      const pxPerPoint = camera.state.get().camera.scale;
      return {
        page,
        options,
        pxPerPoint,
        hit: (at) => page && hitTest(job, results.get().drawings, { at, page: page.id, pxPerPoint, stage }),
        snap: (request) =>
          page && snapper(request, { job, page: page.id, index: pages.index(page.id), pxPerPoint }),
        trace: (at, traced) => traceOn(page && pages.region(page.id), at, traced),
        closedPath: (at) => closedPathOn(page && pages.index(page.id), at),
        lineKind: (at) => lineKindOn(page && pages.index(page.id), at, LINE_PX / pxPerPoint),
        endLap: (picked) => findEndLap(job, results.get().estimate, picked),
      };
    },
    panBy: camera.panByPage,
    leaveOut: ({ of, key }) => {
      const { hiding } = pages.reading.get();
      pages.hide({ ...hiding, [of]: [...hiding[of].filter((one) => one !== key), key] });
    },
    say,
  });
  pages.onSorted(() => host.send({ type: 'relined' }));
  return host;
}
