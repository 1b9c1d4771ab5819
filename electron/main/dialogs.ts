// The system's own dialogs, for the handlers.
import { BrowserWindow, dialog, type FileFilter } from 'electron';
import { extname } from 'node:path';
import type { Dialogs } from '../handlers/services';

export function systemDialogs(): Dialogs {
  return {
    chooseFile: async (kind) => {
      const options = {
        title: kind === 'job' ? 'Open a job or a plan' : 'Import a plan',
        properties: ['openFile' as const],
        filters: kind === 'job' ? [JOBS, PLANS] : [PLANS],
      };
      const window = parent();
      const { canceled, filePaths } = await (window
        ? dialog.showOpenDialog(window, options)
        : dialog.showOpenDialog(options));
      return canceled ? null : (filePaths[0] ?? null);
    },
    choosePlace: async (suggestedName) => {
      const options = { title: 'Save', defaultPath: suggestedName, filters: filtersFor(suggestedName) };
      const window = parent();
      const { canceled, filePath } = await (window
        ? dialog.showSaveDialog(window, options)
        : dialog.showSaveDialog(options));
      return canceled || !filePath ? null : filePath;
    },
  };
}

const JOBS: FileFilter = { name: 'Lapstrake jobs', extensions: ['lapjob'] };
const PLANS: FileFilter = { name: 'Plans (PDF, DXF)', extensions: ['pdf', 'dxf'] };

function parent(): BrowserWindow | undefined {
  return BrowserWindow.getFocusedWindow() ?? BrowserWindow.getAllWindows()[0];
}

function filtersFor(name: string): FileFilter[] {
  const extension = extname(name).slice(1);
  if (extension === 'lapjob') return [JOBS];
  return extension ? [{ name: `${extension.toUpperCase()} file`, extensions: [extension] }] : [];
}
