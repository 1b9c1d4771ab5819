// Light, dark, or as the system has it.
import type { Settings } from '../../shared/settings/settings';
import { createStore } from '../document/store';
import type { Store } from '../document/store';

export function followTheme(settings: Store<Settings>): Store<'light' | 'dark'> {
  const system = window.matchMedia('(prefers-color-scheme: dark)');
  const resolve = (): 'light' | 'dark' => {
    const { theme } = settings.get();
    return theme === 'system' ? (system.matches ? 'dark' : 'light') : theme;
  };
  const theme = createStore(resolve());
  const apply = (): void => {
    theme.set(resolve());
    document.documentElement.dataset.theme = theme.get();
  };
  system.addEventListener('change', apply);
  settings.subscribe(apply);
  apply();
  return theme;
}
