// Keeps the job when a panel fails: it can be saved, and the window drawn again.
import { Component } from 'react';
import type { ReactNode } from 'react';
import type { AppSession } from './appSession';

interface Props {
  readonly session: AppSession;
  readonly children: ReactNode;
}

export class ErrorBoundary extends Component<Props, { readonly error: Error | null }> {
  override state = { error: null };

  static getDerivedStateFromError(error: Error): { error: Error } {
    return { error };
  }

  override render(): ReactNode {
    const { error } = this.state as { error: Error | null };
    if (!error) return this.props.children;
    const { files } = this.props.session;
    return (
      <main className="stopped">
        <h1>This part of the window failed</h1>
        <p>The job is untouched. Save it, then draw the window again; undo takes back the last change.</p>
        <pre>{error.message}</pre>
        <p className="row-of-buttons">
          <button type="button" className="primary" onClick={() => void files.save()}>
            Save the job
          </button>
          <button type="button" onClick={() => this.setState({ error: null })}>
            Draw again
          </button>
          <button
            type="button"
            onClick={() => {
              this.props.session.editor.undo();
              this.setState({ error: null });
            }}
          >
            Undo and draw again
          </button>
        </p>
      </main>
    );
  }
}
