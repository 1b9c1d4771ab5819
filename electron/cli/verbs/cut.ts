// Lengths to rolls.
import { cutLengths } from '../../../core/sheets/cutLengths';
import { cutInputSchema, cutVerb } from '../../../shared/verbs/cut';
import { exactSolver } from '../exactSolver';
import { refusedBy } from '../faultWords';
import { nameOf, readJsonInput } from '../input';
import type { VerbOutcome } from '../verbModule';
import type { Words } from '../words';

export const spec = cutVerb;

export async function run({ input }: Words): Promise<VerbOutcome> {
  const order = await readJsonInput(input, cutInputSchema);
  if (!order.ok) return order;
  const answer = cutLengths(order.value, await exactSolver());
  if ('fault' in answer) return refusedBy(nameOf(input), answer.fault);
  return { ok: true, value: { document: answer, status: 0 } };
}
