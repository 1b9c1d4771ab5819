// The window over a loopback address, for a browser: the same files, the same handlers, the same content policy.
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { MOST_BYTES } from '../../shared/channels/channel';
import { packMessage, unpackMessage } from '../../shared/channels/wire';
import { guardsFor, readWindowFile } from '../files/windowFiles';
import { answerCall, isChannelName } from '../handlers/answerCall';
import type { Services } from '../handlers/services';
import { makeGuard, whyForeign, type Guard } from './guard';

export interface Host {
  /** Opens the window once; holds the token. */
  readonly address: string;
  close(): Promise<void>;
}

export async function startHost(windowFolder: string, services: Services): Promise<Host> {
  let guard: Guard | null = null;
  let port = 0;
  const server = createServer((request, response) => {
    if (!guard) return;
    answer({ request, response, port, guard, windowFolder, services }).catch((error: unknown) => {
      services.mistake('host', error);
      if (!response.headersSent) say(response, 500, 'The program made a mistake here. Load the page again.');
      else response.destroy();
    });
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, '127.0.0.1', resolve);
  });
  port = (server.address() as AddressInfo).port;
  guard = makeGuard(port);
  return {
    address: `http://127.0.0.1:${port}/open?token=${guard.token}`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

interface Exchange {
  readonly request: IncomingMessage;
  readonly response: ServerResponse;
  readonly port: number;
  readonly guard: Guard;
  readonly windowFolder: string;
  readonly services: Services;
}

async function answer(exchange: Exchange): Promise<void> {
  const { request, response, port, guard } = exchange;
  const foreign = whyForeign(request, port);
  if (foreign) return say(response, 403, `Refused: ${foreign}.`);
  const url = new URL(request.url ?? '/', `http://127.0.0.1:${port}`);
  if (request.method === 'GET' && url.pathname === '/open') return open(exchange, url);
  if (!guard.hasCookie(request)) {
    return say(response, 403, 'Refused: open the address that the program printed in the terminal.');
  }
  if (url.pathname === '/favicon.ico') return void response.writeHead(204, guardsFor('/')).end();
  if (request.method === 'GET') return serve(exchange, url.pathname);
  if (request.method === 'POST' && url.pathname.startsWith('/call/')) return call(exchange, url.pathname);
  return say(response, 405, 'Only GET, and POST to /call/, are answered.');
}

function open({ request, response, guard }: Exchange, url: URL): void {
  const cookie = guard.exchange(url.searchParams.get('token') ?? '');
  if (cookie === null && !guard.hasCookie(request)) {
    return say(
      response,
      403,
      'This address works once and has been used, or is not the one that was printed. Start the program again for a new one.',
    );
  }
  response.writeHead(303, {
    ...guardsFor('/open'),
    Location: '/',
    ...(cookie === null ? {} : { 'Set-Cookie': cookie }),
  });
  response.end();
}

async function serve({ response, windowFolder }: Exchange, path: string): Promise<void> {
  const file = await readWindowFile(windowFolder, path);
  if (!file) return say(response, 404, 'No such file.');
  response.writeHead(200, { ...file.headers, 'Content-Length': file.bytes.byteLength });
  response.end(file.bytes);
}

async function call({ request, response, services }: Exchange, path: string): Promise<void> {
  const name = path.slice('/call/'.length);
  if (!isChannelName(name)) return say(response, 404, 'No such call.');
  if (request.headers['content-type'] !== 'application/octet-stream') {
    return say(response, 415, 'A call is sent as application/octet-stream.');
  }
  const body = await readBody(request, MOST_BYTES);
  if (!body) return say(response, 413, 'The call is larger than 512 MiB.');
  const answered = packMessage(await answerCall(name, unpackMessage(body), services));
  response.writeHead(200, {
    ...guardsFor(path),
    'Content-Type': 'application/octet-stream',
    'Content-Length': answered.byteLength,
  });
  response.end(answered);
}

async function readBody(request: IncomingMessage, most: number): Promise<Uint8Array | null> {
  const parts: Buffer[] = [];
  let length = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    length += part.byteLength;
    if (length > most) return null;
    parts.push(part);
  }
  return new Uint8Array(Buffer.concat(parts));
}

function say(response: ServerResponse, status: number, sentence: string): void {
  response.writeHead(status, { ...guardsFor('/'), 'Content-Type': 'text/plain; charset=utf-8' });
  response.end(`${sentence}\n`);
}
