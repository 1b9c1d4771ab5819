// A whole job to quantities, order, weld plan and bid; a folder to one summary of its jobs.
import { readdir, stat } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { done, sentenceOf, type Outcome } from '../../../shared/errors/failure';
import { estimateVerb, type SummaryDocument } from '../../../shared/verbs/estimate';
import { attempt } from '../../files/failures';
import { saveAllAtomically } from '../../files/saveAtomically';
import { isJobName } from '../../files/startFiles';
import { estimateJob, statusOf, type Estimated } from '../estimateJob';
import { nameOf } from '../input';
import { readJobFile, type JobFile } from '../readJobFile';
import type { VerbOutcome } from '../verbModule';
import type { Words } from '../words';

export const spec = estimateVerb;

export async function run({ input, options }: Words): Promise<VerbOutcome> {
  const out = typeof options.out === 'string' ? options.out : null;
  if (input !== '-') {
    const facts = await attempt(input, 'read', () => stat(input));
    if (!facts.ok) return facts;
    if (facts.value.isDirectory()) return estimateFolder(input, out);
  }
  const one = await estimateFile(input, out);
  if (!one.ok) return one;
  const { document, files } = one.value;
  return {
    ok: true,
    value: { document: files ? { ...document, files } : document, status: statusOf(document.findings) },
  };
}

interface Done extends Estimated, JobFile {
  /** What was written, where anything was to be. */
  readonly files: readonly string[] | null;
}

async function estimateFile(input: string, out: string | null): Promise<Outcome<Done>> {
  const file = await readJobFile(input);
  if (!file.ok) return file;
  const estimated = await estimateJob(nameOf(input), file.value.job);
  if (!estimated.ok) return estimated;
  const both = { ...file.value, ...estimated.value };
  if (out === null) return done({ ...both, files: null });
  const [{ PACK_NAMES }, { writePack }] = await Promise.all([
    import('../../../shared/packs/packNames'),
    import('../../../shared/packs/writePack'),
  ]);
  const packs: { name: string; bytes: Uint8Array }[] = [];
  for (const name of PACK_NAMES) {
    const { job, drawings: files, estimate } = both;
    packs.push({ name, bytes: await writePack(name, { job, estimate, files }) });
  }
  const saved = await saveAllAtomically(out, packs);
  return saved.ok ? done({ ...both, files: saved.value }) : saved;
}

async function estimateFolder(folder: string, out: string | null): Promise<VerbOutcome> {
  const names = await attempt(folder, 'read', async () => (await readdir(folder)).filter(isJobName).sort());
  if (!names.ok) return names;
  const jobs: SummaryDocument['jobs'] = [];
  let status: 0 | 3 | 4 = 0;
  for (const name of names.value) {
    process.stderr.write(`${name}\n`);
    const one = await estimateFile(join(folder, name), out && join(out, basename(name, extname(name))));
    if (!one.ok) {
      jobs.push({ file: name, refusal: sentenceOf(one.failure) });
      status = 3;
      continue;
    }
    const row = summaryRow(name, one.value);
    jobs.push(row);
    if (row.findings.error > 0 && status === 0) status = 4;
  }
  return { ok: true, value: { document: { jobs } satisfies SummaryDocument, status } };
}

type SummaryRow = Extract<SummaryDocument['jobs'][number], { readonly total: string }>;

function summaryRow(file: string, { job, estimate, document }: Done): SummaryRow {
  const count = (severity: string): number =>
    estimate.findings.filter((finding) => finding.severity === severity).length;
  return {
    file,
    name: job.about.name,
    currency: estimate.bid.currency,
    total: estimate.bid.total,
    rolls: document.roofs.reduce((sum, { layout }) => sum + layout.rolls.count, 0),
    findings: { error: count('error'), warning: count('warning'), advice: count('advice') },
  };
}
