import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { call, freshFolder, REFUSAL, written } from './call';
import { pagesPdf } from '../support/pagesPdf';
import { hostilePdfs } from './hostilePdfs';

let folder = '';
beforeAll(async () => {
  folder = await freshFolder();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('hostile PDFs', () => {
  test.each(hostilePdfs().map((pdf) => [pdf.what, pdf] as const))(
    '%s ends within ten seconds',
    async (_what, pdf) => {
      const { status, out, error, seconds } = await call([
        'linework',
        await written(folder, 'plan.pdf', pdf.bytes),
      ]);
      expect(seconds).toBeLessThan(10);
      if (status === 0) {
        expect(pdf.refusal).toBeNull();
        expect(() => JSON.parse(out) as unknown).not.toThrow();
        return;
      }
      expect(error).toMatch(REFUSAL);
      if (pdf.refusal) expect(error).toMatch(pdf.refusal);
      expect([status, out]).toEqual([3, '']);
    },
  );
});

describe('a locked PDF', () => {
  const verbs: readonly (readonly [verb: string, ...more: string[]])[] = [
    ['linework'],
    ['scale'],
    ['region', '--at=200,200'],
  ];
  test.each(verbs)(
    '%s asks for the password, and takes the right one',
    async (verb: string, ...more: string[]) => {
      const plan = await written(folder, `locked-${verb}.pdf`, await pagesPdf(1, 'gannet'));
      const without = await call([verb, plan, ...more]);
      expect([without.status, without.out]).toEqual([3, '']);
      expect(without.error).toMatch(REFUSAL);
      expect(without.error).toMatch(/locked with a password.*--password/);
      const wrong = await call([verb, plan, ...more, '--password', 'puffin']);
      expect(wrong.status).toBe(3);
      expect(wrong.error).toMatch(/the password does not open it/);
      const right = await call([verb, plan, ...more, '--password', 'gannet']);
      expect([right.status, right.error]).toEqual([0, '']);
      expect(() => JSON.parse(right.out) as unknown).not.toThrow();
    },
  );
});
