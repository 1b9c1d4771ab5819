// The way to files: what the preload exposed on the desktop, or the loopback host in a browser.
import type { Bridge } from '../../shared/channels/bridge';
import { createBrowserBridge } from './browserBridge';

declare global {
  interface Window {
    readonly lapstrake?: Bridge;
  }
}

export function connectBridge(): Bridge {
  return window.lapstrake ?? createBrowserBridge();
}
