// What the program remembers between jobs. A setting that cannot be read falls back to its default alone.
import { z } from 'zod';

export const settingsSchema = z.object({
  theme: z.enum(['system', 'light', 'dark']).catch('system').default('system'),
  /** Width of the ledger, px. */
  ledgerWidth: z.number().min(280).max(640).catch(360).default(360),
});

export type Settings = z.infer<typeof settingsSchema>;

export const DEFAULT_SETTINGS: Settings = settingsSchema.parse({});

export function readSettings(stored: unknown): Settings {
  const read = settingsSchema.safeParse(stored ?? {});
  return read.success ? read.data : DEFAULT_SETTINGS;
}
