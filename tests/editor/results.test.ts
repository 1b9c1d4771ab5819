import { describe, expect, it } from 'vitest';
import { estimate } from '../../core/job/estimate';
import { followJob, isLagging } from '../../renderer/document/results';
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
  const answer = (exactFollows = false): void => {
    const request = asked.at(-1);
    if (request?.kind !== 'estimate') return;
    const { job, revision } = request;
    reply({ kind: 'estimate', revision, estimate: estimate(job), drawings: [], exactFollows });
  };
  return {
    port,
    asked,
    answer,
    answerWith: (given: EstimatorReply) => reply(given),
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

  it('lags until the exact cut is there, and drops one of a job that has changed since', () => {
    const driver = startDriver();
    const worker = slowWorker();
    const results = followJob(driver.editor.state, worker.port);
    worker.answer(true);
    const lags = () => isLagging(results.get(), driver.editor.state.get());
    expect(lags()).toBe(true);
    const { revision } = results.get();
    const exact = estimate(driver.editor.state.get().job);
    worker.answerWith({ kind: 'exact', revision, estimate: exact, drawings: [] });
    expect(results.get()).toMatchObject({ revision, drawn: revision + 0.5, estimate: exact });
    expect(lags()).toBe(false);
    traceRing(driver, L_SHAPE);
    worker.answer(true);
    worker.answer(true);
    const now = results.get();
    worker.answerWith({ kind: 'exact', revision, estimate: exact, drawings: [] });
    expect(results.get()).toBe(now);
    expect(lags()).toBe(true);
    worker.answerWith({ kind: 'noExact', revision: now.revision, message: 'gone' });
    expect(results.get()).toMatchObject({ noExact: 'gone', estimate: now.estimate });
    expect(lags()).toBe(false);
  });
});
