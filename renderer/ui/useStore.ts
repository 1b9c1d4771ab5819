// The one adapter between stores and React: reads a slice and renders again when it changes.
import { useSyncExternalStore } from 'react';

export interface Readable<T> {
  get(): T;
  subscribe(listener: () => void): () => void;
}

export function useStore<T>(store: Readable<T>): T {
  return useSyncExternalStore(store.subscribe, store.get);
}
