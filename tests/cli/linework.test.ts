import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { call, freshFolder, REFUSAL, written } from './call';
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
