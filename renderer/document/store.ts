// A value and its listeners. Identity decides: the same reference is no change, and nobody is told.
export interface Store<T> {
  get(): T;
  set(next: T): void;
  update(change: (now: T) => T): void;
  /** Returns its own undo. */
  subscribe(listener: (now: T, before: T) => void): () => void;
}

export function createStore<T>(initial: T): Store<T> {
  let value = initial;
  const listeners = new Set<(now: T, before: T) => void>();
  const set = (next: T): void => {
    if (Object.is(next, value)) return;
    const before = value;
    value = next;
    for (const listener of [...listeners]) listener(next, before);
  };
  return {
    get: () => value,
    set,
    update: (change) => set(change(value)),
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
