// What a step of the chain holds against its input, as a refusal. A step's message is whole sentences already:
// the first says what is wrong, the rest what to do.
import { failed, type Outcome } from '../../shared/errors/failure';

export function refusedBy(
  where: string,
  fault: { readonly where: string; readonly message: string },
): Outcome<never> {
  return failed(
    'out-of-range',
    fault.where === '' ? where : `${where}: ${fault.where}`,
    ...twoParts(fault.message),
  );
}

/** The container refuses in one text. */
export function refusedWith(where: string, refusal: string): Outcome<never> {
  return failed('damaged', where, ...twoParts(refusal));
}

function twoParts(message: string): [string, string] {
  const end = message.search(/[.!?]\s/);
  return end < 0
    ? [message, 'Correct it and try again']
    : [message.slice(0, end), message.slice(end + 1).trim()];
}
