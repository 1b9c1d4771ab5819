// Starts the window.
import '@fontsource/ibm-plex-sans/latin-400.css';
import '@fontsource/ibm-plex-sans/latin-600.css';
import { createRoot } from 'react-dom/client';
import { connectBridge } from '../bridge/bridge';
import { allowNoEval } from '../../shared/worker/noEval';
import { App } from './App';
import './app.css';
import { ErrorBoundary } from './ErrorBoundary';
import { startSession } from './startSession';

allowNoEval();

const place = document.getElementById('root');
if (!place) throw new Error('the page has no place for the window');
const root = createRoot(place);

startSession(connectBridge()).then(
  (session) =>
    root.render(
      <ErrorBoundary session={session}>
        <App session={session} />
      </ErrorBoundary>,
    ),
  (error: unknown) =>
    root.render(
      <main className="stopped">
        <h1>Lapstrake could not start</h1>
        <p>{error instanceof Error ? error.message : String(error)}</p>
        <button type="button" onClick={() => window.location.reload()}>
          Try again
        </button>
      </main>,
    ),
);
