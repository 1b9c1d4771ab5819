// Questions in front of everything: unsaved work, which pages to take, and the list of keys.
import { useState } from 'react';
import { formatNumber } from '../../core/units/numbers';
import { Dialog } from '../ui/Dialog';
import { useStore } from '../ui/useStore';
import type { Question } from './appSession';
import { SHORTCUTS } from './shortcuts';
import type { StartedSession } from './startSession';

export function Questions({ session }: { readonly session: StartedSession }) {
  const question = useStore(session.question);
  const { job } = useStore(session.editor.state);
  if (!question) return null;
  if (question.kind === 'keys') return <KeyList onClose={() => session.question.set(null)} />;
  if (question.kind === 'pages') return <PageChooser question={question} />;
  return (
    <Dialog title={`Save the changes to “${job.about.name}”?`} onClose={() => question.answer('cancel')}>
      <p>They are lost otherwise.</p>
      <p className="row-of-buttons">
        <button type="button" className="primary" onClick={() => question.answer('save')}>
          Save
        </button>
        <button type="button" onClick={() => question.answer('discard')}>
          Don’t save
        </button>
        <button type="button" onClick={() => question.answer('cancel')}>
          Cancel
        </button>
      </p>
    </Dialog>
  );
}

function PageChooser({ question }: { readonly question: Extract<Question, { kind: 'pages' }> }) {
  const [chosen, setChosen] = useState<readonly number[]>([1]);
  const { name, pages, answer } = question;
  const mm = (points: number): string => formatNumber((points / 72) * 25.4);
  return (
    <Dialog title={`Which pages of ${name}?`} onClose={() => answer([])}>
      <ul className="page-list" aria-label="Pages of the file">
        {pages.map((page, k) => {
          const number = k + 1;
          return (
            <li key={number}>
              <label>
                <input
                  type="checkbox"
                  checked={chosen.includes(number)}
                  onChange={(event) =>
                    setChosen(
                      event.target.checked ? [...chosen, number] : chosen.filter((one) => one !== number),
                    )
                  }
                />
                Page {number}
                <span className="soft">
                  {mm(page.width)} × {mm(page.height)} mm
                </span>
              </label>
            </li>
          );
        })}
      </ul>
      <p className="row-of-buttons">
        <button
          type="button"
          className="primary"
          disabled={chosen.length === 0}
          onClick={() => answer([...chosen].sort((a, b) => a - b))}
        >
          Import {chosen.length === 1 ? 'this page' : `${chosen.length} pages`}
        </button>
        <button type="button" onClick={() => answer([])}>
          Cancel
        </button>
      </p>
    </Dialog>
  );
}

function KeyList({ onClose }: { readonly onClose: () => void }) {
  return (
    <Dialog title="Keys" onClose={onClose}>
      <dl className="keys">
        {SHORTCUTS.map(({ keys, does }) => (
          <div key={keys}>
            <dt>
              <kbd>{keys}</kbd>
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
      <p className="row-of-buttons">
        <button type="button" onClick={onClose}>
          Close
        </button>
      </p>
    </Dialog>
  );
}
