// The verbs, each loaded only when it is called.
import type { VerbModule } from './verbModule';

export const verbTable: Readonly<Record<string, () => Promise<VerbModule>>> = {
  estimate: () => import('./verbs/estimate'),
  layout: () => import('./verbs/layout'),
  cut: () => import('./verbs/cut'),
  check: () => import('./verbs/check'),
  linework: () => import('./verbs/linework'),
  scale: () => import('./verbs/scale'),
  region: () => import('./verbs/region'),
  schema: () => import('./verbs/schema'),
  help: () => import('./verbs/help'),
};
