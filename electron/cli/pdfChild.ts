// Reads one page of a PDF, or a DXF drawing, in a process of its own: a drawing from a stranger can loop or fill the memory, and
// here it can be stopped. Started by readPlan.ts; speaks over the channel it was forked with.
import { Worker } from 'node:worker_threads';
import { readLinework } from '../../core/plan/linework';
import { failed } from '../../shared/errors/failure';
import { readDxf } from '../../shared/readers/dxf';
import { looksLikeDxf } from '../../shared/readers/looksLikeDxf';
import { openPdf, readPage } from '../../shared/readers/pdf';
import type { PlanReply, PlanRequest } from './readPlan';

// The library's own thread may be busy, so a second one watches. Typed arrays lie outside the heap, where the
// limit of the heap does not see them: what counts is the memory of the whole process.
const WATCH = `
  const { workerData } = require('node:worker_threads');
  setInterval(() => {
    if (process.memoryUsage.rss() > workerData) process.kill(process.pid, 'SIGKILL');
  }, 25);
`;

process.once('message', (request: PlanRequest) => {
  new Worker(WATCH, { eval: true, workerData: request.mostMemory }).unref();
  void read(request).then((reply) => process.send?.(reply, () => process.disconnect()));
});

async function read({ bytes, page, name, password }: PlanRequest): Promise<PlanReply> {
  if (looksLikeDxf(bytes)) {
    if (page !== 1)
      return failed('out-of-range', name, `there is no page ${page}: a DXF has one`, 'Leave --page out');
    const drawing = readDxf(bytes, name);
    return drawing.ok ? { ok: true, value: readLinework(drawing.value) } : drawing;
  }
  const opened = await openPdf(bytes, { name, ...(password === undefined ? {} : { password }) });
  if (!opened.ok) return opened;
  const content = await readPage(opened.value, page, { where: name });
  if (!content.ok) return content;
  const linework = readLinework(content.value);
  await opened.value.close();
  return { ok: true, value: linework };
}
