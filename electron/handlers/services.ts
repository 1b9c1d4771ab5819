// What a handler may use; everything that differs between the desktop and the loopback host is passed in.
import type { Journal } from '../files/journal';
import type { Places } from '../files/places';

export interface Dialogs {
  /** A path a person picked; null when they thought better of it. */
  chooseFile(kind: 'job' | 'plan'): Promise<string | null>;
  choosePlace(suggestedName: string): Promise<string | null>;
}

export interface Services {
  readonly version: string;
  readonly platform: string;
  /** null where this side shows no windows of its own. */
  readonly dialogs: Dialogs | null;
  readonly places: Places;
  readonly journal: Journal;
  readonly settingsFile: string;
  startFile(): Promise<StartFile | null>;
  documentState(state: { readonly name: string; readonly unsaved: boolean }): void;
  /** Tells the program's makers, not the page, of an error that nobody foresaw. */
  mistake(where: string, error: unknown): void;
}

export interface StartFile {
  readonly path: string;
  readonly from: 'named' | 'last' | 'demo';
}
