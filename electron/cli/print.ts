// The one document on standard output.
import { codeOf } from '../files/failures';

/** Text goes out as it is, anything else as JSON. A reader that closes early, such as `head`, is no failure. */
export function printed(document: unknown): Promise<void> {
  const text = typeof document === 'string' ? document : `${JSON.stringify(document)}\n`;
  return new Promise((resolve, reject) => {
    const end = (error?: Error | null): void => {
      if (error && codeOf(error) !== 'EPIPE') reject(error);
      else resolve();
    };
    process.stdout.once('error', end);
    process.stdout.write(text, end);
  });
}
