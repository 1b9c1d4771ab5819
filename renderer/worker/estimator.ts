// The estimator thread: the only place in the window where estimate() runs.
import { drawRoof } from '../../core/drawing/drawRoof';
import { makeEstimator } from '../../core/job/reuse';
import type { LaidDrawings } from '../../shared/worker/laid';
import type { EstimatorReply, EstimatorRequest } from '../../shared/worker/messages';
import { writePack } from '../../shared/packs/writePack';

const estimate = makeEstimator();

self.onmessage = (event: MessageEvent<EstimatorRequest>) => void answer(event.data);

/** To the thread that paints large roofs. */
let drawingsPort: MessagePort | null = null;
let drawn: LaidDrawings | null = null;

async function answer(request: EstimatorRequest): Promise<void> {
  if (request.kind === 'drawings') {
    drawingsPort = request.port;
    if (drawn) drawingsPort.postMessage(drawn);
    return;
  }
  const reply: EstimatorReply =
    request.kind === 'estimate' ? answerEstimate(request) : await answerPack(request);
  self.postMessage(reply);
}

function answerEstimate({ job, revision }: Extract<EstimatorRequest, { kind: 'estimate' }>): EstimatorReply {
  try {
    const result = estimate(job);
    const drawings = result.roofs.map((roof) => drawRoof(roof, result.weldPlan, job.display));
    drawn = { revision, drawings };
    drawingsPort?.postMessage(drawn);
    return { kind: 'estimate', revision, estimate: result, drawings };
  } catch (error) {
    return { kind: 'failed', revision, message: wordsOf(error) };
  }
}

async function answerPack(request: Extract<EstimatorRequest, { kind: 'pack' }>): Promise<EstimatorReply> {
  try {
    const { job, drawings: files } = request;
    const bytes = await writePack(request.pack, { job, estimate: estimate(job), files });
    return { kind: 'packed', request: request.request, name: request.pack, bytes };
  } catch (error) {
    return { kind: 'packFailed', request: request.request, message: wordsOf(error) };
  }
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
