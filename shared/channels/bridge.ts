// What the window may ask of the side that has files: the preload offers it on the desktop, the loopback host in
// a browser. One interface, so that the window never knows which of the two it runs on.

export interface OpenedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Where a later save goes, as an opaque word of the other side; null where it cannot be saved back. */
  readonly target: string | null;
}

export interface RecentFile {
  readonly name: string;
  readonly target: string;
}

export type MenuCommand =
  | 'new'
  | 'open'
  | 'importPdf'
  | 'save'
  | 'saveAs'
  | 'export'
  | 'undo'
  | 'redo'
  | 'zoomIn'
  | 'zoomOut'
  | 'zoomFit';

export interface Bridge {
  readonly kind: 'desktop' | 'browser';
  about(): Promise<{ version: string; platform: string }>;
  /** The file named on the command line, or the demo job; null for an empty start. */
  startFile(): Promise<OpenedFile | null>;
  /** Ask a person for a file; null when they think better of it. */
  openFile(kind: 'job' | 'plan'): Promise<OpenedFile | null>;
  openRecent(target: string): Promise<OpenedFile>;
  recentFiles(): Promise<readonly RecentFile[]>;
  /** Save over `target`, or ask for a place where it is null; null when the person cancels. */
  saveJob(job: {
    name: string;
    bytes: Uint8Array;
    target: string | null;
  }): Promise<{ name: string; target: string | null } | null>;
  /** Write one document beside the job; asks for a place. False when the person cancels. */
  exportFile(file: { name: string; bytes: Uint8Array }): Promise<boolean>;
  /** The autosave journal: the last saved job and the commands since. Null where there is none. */
  readJournal(): Promise<string | null>;
  appendJournal(lines: string): Promise<void>;
  clearJournal(): Promise<void>;
  readSettings(): Promise<unknown>;
  writeSettings(settings: unknown): Promise<void>;
  /** Tells the other side what the title says and whether closing would lose work. */
  setDocumentState(state: { name: string; unsaved: boolean }): Promise<void>;
  onMenu(listener: (command: MenuCommand) => void): () => void;
  /** A file handed over from outside: a second start with a file, or the desktop's open-with. */
  onFile(listener: (file: OpenedFile) => void): () => void;
}
