// Who may speak to the loopback host: only the page it served itself, to the browser that opened its address.
// Every page in the world can send requests to 127.0.0.1, so the address carries a token that works once and
// becomes a cookie; Host is checked against name rebinding, Origin against other pages.
import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

export interface Guard {
  readonly token: string;
  /** The cookie to set where the token is right and unused; null where it is not. */
  exchange(token: string): string | null;
  hasCookie(request: IncomingMessage): boolean;
}

export function makeGuard(port: number): Guard {
  const token = randomBytes(24).toString('base64url');
  const secret = randomBytes(24).toString('base64url');
  // Browsers share cookies between ports, so that the name keeps two hosts apart.
  const name = `lapstrake-${port}`;
  let used = false;
  return {
    token,
    exchange: (given) => {
      if (used || !same(given, token)) return null;
      used = true;
      return `${name}=${secret}; Path=/; HttpOnly; SameSite=Strict`;
    },
    hasCookie: ({ headers }) =>
      (headers.cookie ?? '')
        .split(/;\s*/)
        .some((pair) => pair.startsWith(`${name}=`) && same(pair.slice(name.length + 1), secret)),
  };
}

/** Why a request is refused before anything else is looked at, or null. */
export function whyForeign({ headers, method }: IncomingMessage, port: number): string | null {
  const host = `127.0.0.1:${port}`;
  const { origin } = headers;
  const site = headers['sec-fetch-site'];
  if (headers.host !== host) return `this address answers to ${host} only`;
  if (origin !== undefined && origin !== `http://${host}`) return 'another page may not call this program';
  if (method !== 'GET' && origin === undefined) return 'a call has to say which page it comes from';
  if (method !== 'GET' && site !== undefined && site !== 'same-origin')
    return 'another page may not call this program';
  return null;
}

function same(given: string, wanted: string): boolean {
  const a = Buffer.from(given);
  const b = Buffer.from(wanted);
  return a.byteLength === b.byteLength && timingSafeEqual(a, b);
}
