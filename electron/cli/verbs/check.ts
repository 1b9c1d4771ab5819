// What the independent verifier holds against a job's layouts, or against a layout from anywhere.
import { checkContract } from '../../../core/job/contract';
import { checkInputSchema, checkVerb } from '../../../shared/verbs/check';
import type { Outcome } from '../../../shared/errors/failure';
import { estimateJob, statusOf } from '../estimateJob';
import { refusedBy } from '../faultWords';
import { nameOf, parseJson, readInput } from '../input';
import { unpacked } from '../readJobFile';
import type { VerbOutcome } from '../verbModule';
import type { Words } from '../words';
import type { Finding } from '../../../core/verify/types';

export const spec = checkVerb;

export async function run({ input }: Words): Promise<VerbOutcome> {
  const bytes = await readInput(input);
  if (!bytes.ok) return bytes;
  const findings = isZip(bytes.value)
    ? await ofJob(nameOf(input), bytes.value)
    : ofDocument(nameOf(input), bytes.value);
  if (!findings.ok) return findings;
  return { ok: true, value: { document: { findings: findings.value }, status: statusOf(findings.value) } };
}

async function ofJob(where: string, bytes: Uint8Array): Promise<Outcome<readonly Finding[]>> {
  const file = unpacked(where, bytes);
  if (!file.ok) return file;
  const estimated = await estimateJob(where, file.value.job);
  return estimated.ok ? { ok: true, value: estimated.value.estimate.findings } : estimated;
}

function ofDocument(where: string, bytes: Uint8Array): Outcome<readonly Finding[]> {
  const given = parseJson(where, bytes, checkInputSchema);
  if (!given.ok) return given;
  const answer = checkContract(given.value.roof, given.value.layout);
  return 'faults' in answer
    ? refusedBy(where, answer.faults[0] ?? { where: 'roof', message: 'It cannot be built' })
    : { ok: true, value: answer.findings };
}

const isZip = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b;
