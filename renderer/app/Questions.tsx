// Questions in front of everything: unsaved work, which pages to take, a drawing's password, and the list of keys.
import { useEffect, useState } from 'react';
import { formatNumber } from '../../core/units/numbers';
import type { PageFacts } from '../../shared/worker/reading';
import { Dialog } from '../ui/Dialog';
import { useStore } from '../ui/useStore';
import type { Question } from './appSession';
import { listNumbers, readNumbers } from './pageNumbers';
import { SHORTCUTS } from './shortcuts';
import type { StartedSession } from './startSession';

export function Questions({ session }: { readonly session: StartedSession }) {
  const question = useStore(session.question);
  const { job } = useStore(session.editor.state);
  if (!question) return null;
  if (question.kind === 'keys') return <KeyList onClose={() => session.question.set(null)} />;
  if (question.kind === 'pages') return <PageChooser question={question} />;
  if (question.kind === 'password') return <PasswordPrompt key={question.again} question={question} />;
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

/** A longer file is asked for by numbers; its first pages are listed all the same. */
const MOST_LISTED = 200;

function PageChooser({ question }: { readonly question: Extract<Question, { kind: 'pages' }> }) {
  const { choice, answer } = question;
  const [chosen, setChosen] = useState<readonly number[]>([1]);
  const [typed, setTyped] = useState<string | null>(null);
  const [facts, setFacts] = useState<readonly PageFacts[]>([]);
  useEffect(() => {
    const listed = Math.min(choice.count, MOST_LISTED);
    void choice.describe(Array.from({ length: listed }, (_, k) => k + 1)).then(setFacts);
  }, [choice]);
  const mm = (points: number): string => formatNumber((points / 72) * 25.4);
  const read = typed === null ? chosen : readNumbers(typed, choice.count);
  const fault = 'fault' in read ? read.fault : null;
  const numbers = 'fault' in read ? [] : read;
  return (
    <Dialog title={`Which pages of ${choice.name}?`} onClose={() => answer([])}>
      <label className="field">
        <span>Pages, of {formatNumber(choice.count)}</span>
        <input
          type="text"
          value={typed ?? listNumbers(chosen)}
          placeholder="1, 4-6"
          aria-invalid={fault !== null}
          onChange={(event) => setTyped(event.target.value)}
        />
      </label>
      {fault !== null && <p className="wrong-text">{fault}</p>}
      {facts.length === 0 && <p className="soft">Looking at the pages…</p>}
      <ul className="page-list" aria-label="Pages of the file">
        {facts.map(({ number, width, height, name }) => (
          <li key={number}>
            <label>
              <input
                type="checkbox"
                checked={numbers.includes(number)}
                onChange={(event) => {
                  const others = numbers.filter((one) => one !== number);
                  setTyped(null);
                  setChosen(event.target.checked ? [...others, number].sort((a, b) => a - b) : others);
                }}
              />
              Page {number}
              <span className="soft">
                {name === null ? '' : `${name}, `}
                {mm(width)} × {mm(height)} mm
              </span>
            </label>
          </li>
        ))}
      </ul>
      {choice.count > MOST_LISTED && (
        <p className="soft">The first {MOST_LISTED} are listed; type the numbers of others above.</p>
      )}
      <p className="row-of-buttons">
        <button
          type="button"
          className="primary"
          disabled={numbers.length === 0}
          onClick={() => answer(numbers)}
        >
          Import {numbers.length === 1 ? 'this page' : `${numbers.length} pages`}
        </button>
        <button type="button" onClick={() => answer([])}>
          Cancel
        </button>
      </p>
    </Dialog>
  );
}

/** The password is kept while the window is open and never written anywhere. */
function PasswordPrompt({ question }: { readonly question: Extract<Question, { kind: 'password' }> }) {
  const [password, setPassword] = useState('');
  const { name, again, answer } = question;
  return (
    <Dialog title={`${name} is locked`} onClose={() => answer(null)}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          answer(password);
        }}
      >
        <p className={again === 'wrong' ? 'wrong-text' : undefined}>
          {again === 'wrong'
            ? 'That password does not open it. Check it and type it again.'
            : 'It opens with a password. It is used while this window is open and not kept in the job.'}
        </p>
        <label className="field">
          <span>Password</span>
          <input
            type="password"
            autoFocus
            autoComplete="off"
            value={password}
            onChange={(event) => setPassword(event.target.value)}
          />
        </label>
        <p className="row-of-buttons">
          <button type="submit" className="primary" disabled={password === ''}>
            Open
          </button>
          <button type="button" onClick={() => answer(null)}>
            Cancel
          </button>
        </p>
      </form>
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
