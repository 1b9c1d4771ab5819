import { request } from 'node:http';
import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { freshFolder, startHost, type HostProcess } from './program';

interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly body: string;
}

describe('the loopback host', () => {
  let host: HostProcess;
  let dataFolder = '';
  let port = 0;
  let cookie = '';

  beforeAll(async () => {
    dataFolder = await freshFolder();
    host = await startHost(dataFolder);
    port = Number(new URL(host.address).port);
  });

  afterAll(async () => {
    await host.stop();
    await rm(dataFolder, { recursive: true, force: true });
  });

  const ask = (path: string, headers: Record<string, string> = {}, body?: Uint8Array): Promise<Answer> =>
    new Promise((resolve, reject) => {
      const asked = request(
        {
          host: '127.0.0.1',
          port,
          path,
          method: body ? 'POST' : 'GET',
          headers: { host: `127.0.0.1:${port}`, ...headers },
        },
        (response) => {
          let text = '';
          response.setEncoding('utf8').on('data', (part: string) => (text += part));
          response.on('end', () =>
            resolve({ status: response.statusCode ?? 0, headers: response.headers, body: text }),
          );
        },
      );
      asked.once('error', reject);
      asked.end(body);
    });

  // Length 4, then the JSON text null: the message for a call that asks nothing.
  const nothing = new Uint8Array([4, 0, 0, 0, ...new TextEncoder().encode('null')]);
  const ours = (): Record<string, string> => ({
    cookie,
    origin: `http://127.0.0.1:${port}`,
    'content-type': 'application/octet-stream',
  });

  test('says where it is, on the loopback address only', () => {
    expect(host.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/open\?token=[\w-]{32}$/);
    expect(host.said).toContain('works once');
  });

  test('shows nothing without the token', async () => {
    expect((await ask('/')).status).toBe(403);
    expect((await ask('/app.js')).status).toBe(403);
    expect((await ask('/open?token=wrong')).status).toBe(403);
    expect((await ask('/call/about', { origin: `http://127.0.0.1:${port}` }, nothing)).status).toBe(403);
  });

  test('changes the token for a cookie, once', async () => {
    const path = host.address.slice(host.address.indexOf('/open'));
    const first = await ask(path);
    expect([first.status, first.headers.location]).toEqual([303, '/']);
    const [set = ''] = first.headers['set-cookie'] ?? [];
    expect(set).toMatch(/; HttpOnly; SameSite=Strict$/);
    cookie = set.split(';')[0] ?? '';
    const second = await ask(path);
    expect(second.status).toBe(403);
    expect(second.body).toMatch(/works once/);
    expect((await ask('/', { cookie })).status).toBe(200);
  });

  test('serves the window under the same content policy, and nothing beside it', async () => {
    const page = await ask('/', { cookie });
    expect(page.headers['content-security-policy']).toMatch(/default-src 'none'; script-src 'self';/);
    expect(page.headers['content-security-policy']).not.toMatch(/unsafe/);
    for (const path of [
      '/../electron/start.mjs',
      '/..%2f..%2fpackage.json',
      '/%00',
      '/%zz',
      '/.git/config',
    ]) {
      expect((await ask(path, { cookie })).status, path).toBe(404);
    }
  });

  test('answers its own page', async () => {
    const answer = await ask('/call/about', ours(), nothing);
    expect(answer.status).toBe(200);
    expect(answer.body).toContain('"ok":true');
  });

  test('refuses other origins, other names, other sites and other forms', async () => {
    const refused = [
      { ...ours(), origin: 'http://example.org' },
      { ...ours(), origin: 'null' },
      { ...ours(), origin: `http://localhost:${port}` },
      { ...ours(), origin: `http://127.0.0.1:${port + 1}` },
      { ...ours(), host: `localhost:${port}` },
      { ...ours(), host: 'example.org' },
      { ...ours(), 'sec-fetch-site': 'cross-site' },
      { cookie, 'content-type': 'application/octet-stream' },
    ];
    for (const headers of refused) expect((await ask('/call/about', headers, nothing)).status).toBe(403);
    expect((await ask('/call/about', { ...ours(), 'content-type': 'text/plain' }, nothing)).status).toBe(415);
    expect((await ask('/call/quit', ours(), nothing)).status).toBe(404);
    expect((await ask('/call/__proto__', ours(), nothing)).status).toBe(404);
  });

  test('tells of torn calls in words', async () => {
    const answer = await ask('/call/openRecent', ours(), new Uint8Array([9, 0, 0, 0, 1]));
    expect(answer.status).toBe(200);
    expect(answer.body).toContain('"code":"bad-request"');
  });
});
