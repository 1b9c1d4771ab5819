// How a message with bytes in it travels over HTTP, without base64: four bytes (little-endian) with the length
// of a JSON text, that text, then the bytes of every Uint8Array in it, one after another. In the JSON each
// Uint8Array stands as {"$bytes": [start, length]}.
//
// The loopback host's endpoints, for the window's adapter:
//   POST /call/<channel>, Content-Type: application/octet-stream, the cookie sent along (credentials
//   'same-origin'), body = packMessage(request) (null where the channel asks nothing).
//   200 with packMessage({ ok: true, value } | { ok: false, failure }), see answerSchema; throw
//   errorOf(failure). Any other status: the host refused the call itself (403) or is gone.
//   The host answers: about, startFile, openRecent, recentFiles, saveJob (only with a target it gave out),
//   readJournal, appendJournal, clearJournal, readSettings, writeSettings. The page does the others itself:
//   openFile (picker; target null), saveJob with target null (download; answers { name, target: null }),
//   exportFile (download), setDocumentState (title and beforeunload), onMenu and onFile (never fire).
const BYTES = '$bytes';

export function packMessage(value: unknown): Uint8Array {
  const parts: Uint8Array[] = [];
  let at = 0;
  const json = JSON.stringify(value, function (this: Record<string, unknown>, key, item: unknown) {
    // The holder's own value: a Buffer has already been turned into an object by its toJSON in `item`.
    const raw = this[key];
    if (!isBytes(raw)) return item;
    parts.push(raw);
    at += raw.byteLength;
    return { [BYTES]: [at - raw.byteLength, raw.byteLength] };
  });
  const head = new TextEncoder().encode(json);
  const message = new Uint8Array(4 + head.byteLength + at);
  new DataView(message.buffer).setUint32(0, head.byteLength, true);
  message.set(head, 4);
  let to = 4 + head.byteLength;
  for (const part of parts) {
    message.set(part, to);
    to += part.byteLength;
  }
  return message;
}

/** The value, or null where the message is torn; a message whose value is null also reads as null. */
export function unpackMessage(message: Uint8Array): unknown {
  if (message.byteLength < 4) return null;
  const length = new DataView(message.buffer, message.byteOffset, 4).getUint32(0, true);
  if (4 + length > message.byteLength) return null;
  const tail = message.subarray(4 + length);
  try {
    return JSON.parse(new TextDecoder().decode(message.subarray(4, 4 + length)), (_key, item: unknown) =>
      bytesAt(item, tail),
    ) as unknown;
  } catch {
    return null;
  }
}

function bytesAt(item: unknown, tail: Uint8Array): unknown {
  if (typeof item !== 'object' || item === null || !(BYTES in item)) return item;
  const place = item[BYTES];
  if (!Array.isArray(place)) return item;
  const [start, length] = place as unknown[];
  if (!Number.isInteger(start) || !Number.isInteger(length)) return item;
  const from = Number(start);
  const to = from + Number(length);
  return from >= 0 && to >= from && to <= tail.byteLength ? tail.slice(from, to) : item;
}

const isBytes = (item: unknown): item is Uint8Array =>
  Object.prototype.toString.call(item) === '[object Uint8Array]';
