// app://lapstrake/ serves the built window from disk, so that the page has an origin of its own and no file:
// rights.
import { protocol } from 'electron';
import { guardsFor, readWindowFile } from '../files/windowFiles';
import { isOurs, SCHEME } from './address';

/** Must be called before the program is ready. */
export function allowAppScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true } },
  ]);
}

export function serveWindow(folder: string): void {
  protocol.handle(SCHEME, async (request) => {
    if (!isOurs(request.url) || request.method !== 'GET') return new Response(null, { status: 403 });
    const { pathname } = new URL(request.url);
    const file = await readWindowFile(folder, pathname);
    if (!file) return new Response('No such file.', { status: 404, headers: guardsFor(pathname) });
    return new Response(new Uint8Array(file.bytes), { headers: file.headers });
  });
}
