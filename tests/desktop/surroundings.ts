// What the machine has for the desktop tests, as the setup found it.
import { inject } from 'vitest';

interface Surroundings {
  readonly browser: string | null;
  readonly runtime: string | null;
  /** '' on systems that need no name for it; null where there is none. */
  readonly display: string | null;
}

declare module 'vitest' {
  interface ProvidedContext {
    readonly surroundings: Surroundings;
  }
}

export const surroundings = inject('surroundings');
export const canShowDesktop = surroundings.runtime !== null && surroundings.display !== null;
export const canShowBrowser = surroundings.browser !== null;
