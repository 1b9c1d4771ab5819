// The one address the window is loaded from.
export const SCHEME = 'app';
export const ORIGIN = 'app://lapstrake';

export function isOurs(address: string): boolean {
  return address === ORIGIN || address.startsWith(`${ORIGIN}/`);
}
