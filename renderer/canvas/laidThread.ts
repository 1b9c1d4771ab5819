// The thread that paints large roofs, as the window holds it.
import type { LaidMessage, LaidReply } from '../../shared/worker/laid';
import type { LowerScene } from './scene';

export interface LaidThread {
  paint(scene: LowerScene, ratio: number, revision: number): Promise<ImageBitmap>;
}

/** `connect` hands one end of a channel to the estimator, which sends its drawings through it. */
export function startLaidThread(connect: (port: MessagePort) => void): LaidThread {
  const worker = new Worker(new URL('laidPainter.js', document.baseURI), { type: 'module' });
  const waiting = new Map<number, (picture: ImageBitmap) => void>();
  let asked = 0;
  const channel = new MessageChannel();
  connect(channel.port1);
  const post = (message: LaidMessage, transfer: Transferable[] = []): void =>
    worker.postMessage(message, transfer);
  post({ kind: 'estimator', port: channel.port2 }, [channel.port2]);
  worker.onmessage = ({ data }: MessageEvent<LaidReply>) => {
    waiting.get(data.request)?.(data.picture);
    waiting.delete(data.request);
  };
  return {
    paint: ({ drawings, ...scene }, ratio, revision) =>
      new Promise((done) => {
        const request = ++asked;
        waiting.set(request, done);
        const page = drawings[0]?.page ?? '';
        const roofs = drawings.map(({ roof }) => roof);
        post({ kind: 'paint', request, page, roofs, scene, ratio, revision });
      }),
  };
}
