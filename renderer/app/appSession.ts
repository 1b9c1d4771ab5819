// Everything the open window holds, made once at the start.
import type { Bridge, RecentFile } from '../../shared/channels/bridge';
import type { Settings } from '../../shared/settings/settings';
import type { CameraState } from '../canvas/PlanCanvas';
import type { LaidThread } from '../canvas/laidThread';
import type { Editor } from '../document/editor';
import type { Store } from '../document/store';
import type { Session } from '../stages/session';
import type { ToolHost } from '../tools/host';
import type { FileActions } from './files';
import type { PageChoice } from './importing';

/** A question in front of everything else. */
export type Question =
  | { readonly kind: 'unsaved'; readonly answer: (choice: 'save' | 'discard' | 'cancel') => void }
  | {
      readonly kind: 'pages';
      readonly choice: PageChoice;
      readonly answer: (numbers: readonly number[]) => void;
    }
  | {
      readonly kind: 'password';
      readonly name: string;
      /** `wrong`: one was given and does not open it. */
      readonly again: 'first' | 'wrong';
      readonly answer: (password: string | null) => void;
    }
  | { readonly kind: 'keys' };

export interface AppSession {
  readonly bridge: Bridge;
  readonly editor: Editor;
  readonly host: ToolHost;
  readonly panels: Session;
  readonly files: FileActions;
  readonly laidThread: LaidThread;
  readonly camera: Store<CameraState>;
  readonly settings: Store<Settings>;
  readonly theme: Store<'light' | 'dark'>;
  readonly question: Store<Question | null>;
  readonly recent: Store<readonly RecentFile[]>;
  /** What a crash left behind: how many changes were brought back, and how to go back to the saved job. */
  readonly recovered: Store<{ readonly changes: number; readonly goBack: () => void } | null>;
  readonly savedAt: Store<number | null>;
  fit(): void;
  zoom(factor: number): void;
}
