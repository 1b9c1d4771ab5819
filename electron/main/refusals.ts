// What the page may not do, whatever is in it: go elsewhere, open windows, ask for devices, reach the network.
import { app, session } from 'electron';
import { isOurs } from './address';

export function refuseEverythingElse(): void {
  session.defaultSession.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.defaultSession.setPermissionCheckHandler(() => false);
  session.defaultSession.webRequest.onBeforeRequest(({ url }, answer) =>
    answer({ cancel: !isOurs(url) && !/^(blob|data|devtools):/.test(url) }),
  );
  app.on('web-contents-created', (_event, contents) => {
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
    contents.on('will-navigate', (event) => event.preventDefault());
    contents.on('will-redirect', (event) => event.preventDefault());
    contents.on('will-attach-webview', (event) => event.preventDefault());
  });
}
