// The estimator thread: the only place in the window where estimate() runs.
import { drawRoof } from '../../core/drawing/drawRoof';
import { makeEstimator } from '../../core/job/reuse';
import type { Job } from '../../core/job/schema';
import type { Solver } from '../../core/sheets/stock/solver';
import { EXACT_LATER, type LaidDrawings } from '../../shared/worker/laid';
import type { EstimatorReply, EstimatorRequest } from '../../shared/worker/messages';
import { writePack } from '../../shared/packs/writePack';
import { exactSolver } from './exactSolver';

const estimate = makeEstimator();

self.onmessage = (event: MessageEvent<EstimatorRequest>) => void answer(event.data);

const post = (reply: EstimatorReply): void => self.postMessage(reply);

/** To the thread that paints large roofs. */
let drawingsPort: MessagePort | null = null;
let drawn: LaidDrawings | null = null;

async function answer(request: EstimatorRequest): Promise<void> {
  if (request.kind === 'drawings') {
    drawingsPort = request.port;
    if (drawn) drawingsPort.postMessage(drawn);
    return;
  }
  if (request.kind === 'pack') return post(await answerPack(request));
  answerEstimate(request);
}

type Asked = Extract<EstimatorRequest, { kind: 'estimate' }>;

/** An exact cut waits until the job has stood still for so long. */
const REST_MS = 150;
let resting: ReturnType<typeof setTimeout> | undefined;
let newest = -1;

/** Joints forbidden make cutting a problem that is solved exactly; a drag does not wait for that. */
const isExact = ({ system }: Job) => system.joints === 'forbidden';

function answerEstimate({ job, revision }: Asked): void {
  clearTimeout(resting);
  newest = revision;
  try {
    const exactFollows = isExact(job) && Object.keys(job.roofs).length > 0;
    post({ kind: 'estimate', revision, ...made(job, revision, null), exactFollows });
    if (exactFollows)
      resting = setTimeout(() => void answerExactly({ kind: 'estimate', job, revision }), REST_MS);
  } catch (error) {
    post({ kind: 'failed', revision, message: wordsOf(error) });
  }
}

async function answerExactly({ job, revision }: Asked): Promise<void> {
  try {
    const solver = await exactSolver();
    if (newest === revision) post({ kind: 'exact', revision, ...made(job, revision + EXACT_LATER, solver) });
  } catch (error) {
    post({ kind: 'noExact', revision, message: wordsOf(error) });
  }
}

function made(
  job: Job,
  at: number,
  solver: Solver | null,
): Pick<Extract<EstimatorReply, { kind: 'exact' }>, 'estimate' | 'drawings'> {
  const result = estimate(job, solver);
  const drawings = result.roofs.map((roof) => drawRoof(roof, result.weldPlan, job.display));
  drawn = { revision: at, drawings };
  drawingsPort?.postMessage(drawn);
  return { estimate: result, drawings };
}

async function answerPack(request: Extract<EstimatorRequest, { kind: 'pack' }>): Promise<EstimatorReply> {
  try {
    const { job, drawings: files } = request;
    const solver = isExact(job) ? await exactSolver() : null;
    const bytes = await writePack(request.pack, { job, estimate: estimate(job, solver), files });
    return { kind: 'packed', request: request.request, name: request.pack, bytes };
  } catch (error) {
    return { kind: 'packFailed', request: request.request, message: wordsOf(error) };
  }
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
