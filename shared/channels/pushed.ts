// What the desktop side sends to the page unasked: a menu entry was chosen, a file was handed over.
import { z } from 'zod';
import { openedFileSchema } from './channel';
import type { MenuCommand, OpenedFile } from './bridge';

export const menuCommandSchema = z.enum([
  'new',
  'open',
  'importPdf',
  'save',
  'saveAs',
  'export',
  'undo',
  'redo',
  'zoomIn',
  'zoomOut',
  'zoomFit',
]) satisfies z.ZodType<MenuCommand>;

export const menuPush = { name: 'menu', message: menuCommandSchema } as const;
export const filePush = {
  name: 'file',
  message: openedFileSchema satisfies z.ZodType<OpenedFile>,
} as const;
