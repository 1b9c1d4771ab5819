// The schemas of the verbs alone, so that asking for a schema loads nothing of the chain.
import type { VerbSpec } from '../../shared/verbs/verb';

export const schemaTable: Readonly<Record<string, () => Promise<VerbSpec>>> = {
  estimate: async () => (await import('../../shared/verbs/estimate')).estimateVerb,
  layout: async () => (await import('../../shared/verbs/layout')).layoutVerb,
  cut: async () => (await import('../../shared/verbs/cut')).cutVerb,
  check: async () => (await import('../../shared/verbs/check')).checkVerb,
  linework: async () => (await import('../../shared/verbs/linework')).lineworkVerb,
  scale: async () => (await import('../../shared/verbs/scale')).scaleVerb,
  region: async () => (await import('../../shared/verbs/region')).regionVerb,
  schema: async () => (await import('../../shared/verbs/schema')).schemaVerb,
};
