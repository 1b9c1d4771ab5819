// The page's content policy refuses eval, so the schema library runs without its code generation there.
import { config } from 'zod';

export function allowNoEval(): void {
  config({ jitless: true });
}
