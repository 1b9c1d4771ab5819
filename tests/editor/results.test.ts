import { describe, expect, it } from 'vitest';
import { estimate } from '../../core/job/estimate';
import { followJob } from '../../renderer/document/results';
import type { EstimatorPort } from '../../renderer/document/results';
import type { EstimatorReply, EstimatorRequest } from '../../shared/worker/messages';
import { L_SHAPE, startDriver, traceRing } from './driver';

/** A worker that answers only when told to. */
function slowWorker() {
  const asked: EstimatorRequest[] = [];
  let reply: (answer: EstimatorReply) => void = () => {};
  const port: EstimatorPort = {
    post: (request) => void asked.push(request),
    onReply: (listener) => {
      reply = listener;
    },
  };
  const answer = (): void => {
    const request = asked.at(-1);
    if (request?.kind !== 'estimate') return;
    const { job, revision } = request;
    reply({ kind: 'estimate', revision, estimate: estimate(job), drawings: [] });
  };
  return {
    port,
    asked,
    answer,
    fail: (revision: number) => reply({ kind: 'failed', revision, message: 'no' }),
  };
}

describe('the estimate that follows the job', () => {
  it('asks once, and while it waits only the newest question is kept', () => {
    const driver = startDriver();
    const worker = slowWorker();
    const results = followJob(driver.editor.state, worker.port);
    expect(worker.asked).toHaveLength(1);
    traceRing(driver, L_SHAPE);
    driver.editor.run({ kind: 'setAbout', fields: { client: 'A' } });
    driver.editor.run({ kind: 'setAbout', fields: { client: 'B' } });
    expect(worker.asked).toHaveLength(1);
    worker.answer();
    expect(worker.asked).toHaveLength(2);
    expect(results.get().revision).toBeLessThan(driver.editor.state.get().revision);
    worker.answer();
    expect(results.get().revision).toBe(driver.editor.state.get().revision);
    expect(results.get().estimate?.roofs).toHaveLength(1);
  });

  it('keeps the last figures when the estimator fails, and says so', () => {
    const driver = startDriver();
    const worker = slowWorker();
    const results = followJob(driver.editor.state, worker.port);
    worker.answer();
    const before = results.get().estimate;
    traceRing(driver, L_SHAPE);
    worker.fail(driver.editor.state.get().revision);
    expect(results.get()).toMatchObject({ failure: 'no', estimate: before });
  });
});
