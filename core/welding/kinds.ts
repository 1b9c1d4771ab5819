// Kinds of weld in the trade's words, for screen and paper.
import type { WeldKind } from './types';

export const KINDS: Readonly<Record<WeldKind, string>> = {
  'side-lap': 'side lap',
  'end-lap': 'end lap',
  flashing: 'flashing',
  corner: 'corner',
  boot: 'boot',
  't-joint': 'T-joint',
  target: 'target sheet',
  slit: 'strip over a slit',
};
