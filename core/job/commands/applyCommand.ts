// In: a job and a command. Out: the next job, or a refusal in words. Promise: the job given is never edited, and
// what a command does not touch stays the same object.
import type { Job } from '../schema';
import { correctionCommands } from './correction';
import { drawingCommands } from './drawings';
import { fittingCommands } from './fittings';
import { rateCommands } from './rates';
import { ringCommands } from './rings';
import { roofCommands } from './roofs';
import { tradeCommands } from './trade';
import { weldingCommands } from './welding';
import type { Command, CommandHandlers, CommandKind, CommandResult } from './types';

const handlers: CommandHandlers<CommandKind> = {
  ...drawingCommands,
  ...correctionCommands,
  ...roofCommands,
  ...ringCommands,
  ...tradeCommands,
  ...fittingCommands,
  ...rateCommands,
  ...weldingCommands,
};

export function applyCommand(job: Job, command: Command): CommandResult {
  const handle = handlers[command.kind] as (job: Job, command: Command) => CommandResult;
  return handle(job, command);
}
