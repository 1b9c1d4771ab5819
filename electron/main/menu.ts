// The application menu. Each entry only tells the page what was chosen; the page decides what it means.
import { app, BrowserWindow, Menu, type MenuItemConstructorOptions } from 'electron';
import type { MenuCommand } from '../../shared/channels/bridge';
import { menuPush } from '../../shared/channels/pushed';

export function setMenu(): void {
  const mac = process.platform === 'darwin';
  const separator: MenuItemConstructorOptions = { type: 'separator' };
  const template: MenuItemConstructorOptions[] = [
    ...(mac ? [{ role: 'appMenu' as const }] : []),
    {
      label: '&File',
      submenu: [
        entry('&New job', 'new', 'CmdOrCtrl+N'),
        entry('&Open…', 'open', 'CmdOrCtrl+O'),
        separator,
        entry('&Import a plan…', 'importPdf', 'CmdOrCtrl+I'),
        separator,
        entry('&Save', 'save', 'CmdOrCtrl+S'),
        entry('Save &as…', 'saveAs', 'CmdOrCtrl+Shift+S'),
        entry('&Export…', 'export', 'CmdOrCtrl+E'),
        separator,
        mac ? { role: 'close' } : { label: '&Quit', accelerator: 'Ctrl+Q', click: () => app.quit() },
      ],
    },
    {
      label: '&Edit',
      submenu: [
        entry('&Undo', 'undo', 'CmdOrCtrl+Z'),
        entry('&Redo', 'redo', mac ? 'Cmd+Shift+Z' : 'Ctrl+Y'),
        separator,
        { role: 'cut' },
        { role: 'copy' },
        { role: 'paste' },
        { role: 'selectAll' },
      ],
    },
    {
      label: '&View',
      submenu: [
        entry('Zoom &in', 'zoomIn', 'CmdOrCtrl+Plus'),
        entry('Zoom &out', 'zoomOut', 'CmdOrCtrl+-'),
        entry('&Whole sheet', 'zoomFit', 'CmdOrCtrl+0'),
        separator,
        { role: 'togglefullscreen' },
      ],
    },
  ];
  Menu.setApplicationMenu(Menu.buildFromTemplate(template));
}

// The keys are the page's: it knows whether a text field has the focus, and in a browser it has no menu.
function entry(label: string, command: MenuCommand, accelerator: string): MenuItemConstructorOptions {
  return {
    id: command,
    label,
    accelerator,
    registerAccelerator: false,
    click: () => BrowserWindow.getAllWindows()[0]?.webContents.send(menuPush.name, command),
  };
}
