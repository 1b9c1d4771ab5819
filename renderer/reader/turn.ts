// A turn for whatever else waits in this thread. A message, because timers are held back after a few in a row.
const channel = new MessageChannel();
const waiting: (() => void)[] = [];
channel.port1.onmessage = () => waiting.shift()?.();

export function takeTurn(): Promise<void> {
  return new Promise((go) => {
    waiting.push(go);
    channel.port2.postMessage(null);
  });
}
