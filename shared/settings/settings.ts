// What the program remembers between jobs. A setting that cannot be read falls back to its default alone.
import { z } from 'zod';

export const settingsSchema = z.object({
  theme: z.enum(['system', 'light', 'dark']).catch('system').default('system'),
});

export type Settings = z.infer<typeof settingsSchema>;

export const DEFAULT_SETTINGS: Settings = settingsSchema.parse({});

export function readSettings(stored: unknown): Settings {
  const read = settingsSchema.safeParse(stored ?? {});
  return read.success ? read.data : DEFAULT_SETTINGS;
}
