// The thread that paints large roofs: the estimator's latest drawings, under the camera that the window asks for.
import type { LaidDrawings, LaidMessage, LaidReply, LaidRequest } from '../../shared/worker/laid';
import { paintLower } from './paintLower';
import type { LowerScene } from './scene';

let latest: LaidDrawings = { revision: -1, drawings: [] };
let waiting: LaidRequest | null = null;

self.onmessage = ({ data }: MessageEvent<LaidMessage>) => {
  if (data.kind === 'paint') return paintWhenKnown(data);
  data.port.onmessage = ({ data: drawn }: MessageEvent<LaidDrawings>) => {
    latest = drawn;
    if (waiting) paintWhenKnown(waiting);
  };
};

// The lettering of the window; until it is there, or without it, the system's own.
const face = new FontFace('IBM Plex Sans', 'url(fonts/ibm-plex-sans-latin-400-normal.woff2)');
(self as unknown as { readonly fonts: FontFaceSet }).fonts.add(face);
face.load().catch(() => undefined);

/** The window asks once at a time. */
function paintWhenKnown(request: LaidRequest): void {
  const known = latest.revision >= request.revision;
  waiting = known ? null : request;
  if (known) paint(request);
}

function paint({ request, page, roofs, scene, ratio }: LaidRequest): void {
  const shown = latest.drawings.filter((drawing) => drawing.page === page && roofs.includes(drawing.roof));
  const whole: LowerScene = { ...(scene as Omit<LowerScene, 'drawings'>), drawings: shown };
  const canvas = new OffscreenCanvas(
    Math.max(1, Math.round(whole.size.width * ratio)),
    Math.max(1, Math.round(whole.size.height * ratio)),
  );
  const ctx = canvas.getContext('2d');
  if (!ctx) return;
  ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
  paintLower(ctx, whole);
  const reply: LaidReply = { request, picture: canvas.transferToImageBitmap() };
  self.postMessage(reply, { transfer: [reply.picture] });
}
