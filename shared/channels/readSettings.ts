// The settings file as plain data; null where there is none or it cannot be read. The page validates it.
import { z } from 'zod';
import { channel, nothing } from './channel';

export const readSettingsChannel = channel('readSettings', nothing, z.json());
