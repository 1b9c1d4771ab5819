// A roof outline to sheets, laps and rolls.
import { layContract } from '../../../core/job/contract';
import { layoutInputSchema, layoutVerb } from '../../../shared/verbs/layout';
import { statusOf } from '../estimateJob';
import { exactSolver } from '../exactSolver';
import { refusedBy } from '../faultWords';
import { nameOf, readJsonInput } from '../input';
import type { VerbOutcome } from '../verbModule';
import type { Words } from '../words';

export const spec = layoutVerb;

export async function run({ input }: Words): Promise<VerbOutcome> {
  const roof = await readJsonInput(input, layoutInputSchema);
  if (!roof.ok) return roof;
  const answer = layContract(roof.value, await exactSolver());
  if ('faults' in answer) {
    return refusedBy(nameOf(input), answer.faults[0] ?? { where: '', message: 'It cannot be laid' });
  }
  return { ok: true, value: { document: answer.layout, status: statusOf(answer.layout.findings) } };
}
