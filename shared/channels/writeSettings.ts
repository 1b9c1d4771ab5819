// Replaces the settings file.
import { z } from 'zod';
import { channel, nothing } from './channel';

export const writeSettingsChannel = channel('writeSettings', z.json(), nothing);
