// The shell: the rail of stages above, the plan in the middle, the ledger at its side, findings below.
import { useEffect, useRef } from 'react';
import type { DragEvent } from 'react';
import { PlanCanvas } from '../canvas/PlanCanvas';
import { createPagePainter } from '../pdf/pagePainter';
import { BidStage } from '../stages/BidStage';
import { OrderStage } from '../stages/OrderStage';
import { PlanStage } from '../stages/PlanStage';
import { RoofStage } from '../stages/RoofStage';
import { SessionProvider } from '../stages/session';
import { SheetsStage } from '../stages/SheetsStage';
import { WeldsStage } from '../stages/WeldsStage';
import { isLagging } from '../document/results';
import { useStore } from '../ui/useStore';
import { Findings } from './Findings';
import { NextSteps } from './NextSteps';
import { Questions } from './Questions';
import { Rail } from './Rail';
import { listenForShortcuts } from './shortcuts';
import { StatusBar } from './StatusBar';
import type { StartedSession } from './startSession';

const PANELS = {
  plan: PlanStage,
  roof: RoofStage,
  sheets: SheetsStage,
  welds: WeldsStage,
  order: OrderStage,
  bid: BidStage,
} as const;

export function App({ session }: { readonly session: StartedSession }) {
  const { panels, host, camera, theme, pages, editor, files } = session;
  const { stage, page } = useStore(panels.view);
  const document = useStore(editor.state);
  const results = useStore(panels.results);
  const typing = useRef<HTMLInputElement>(null);
  useEffect(() => listenForShortcuts(session), [session]);

  const Panel = PANELS[stage];
  return (
    <SessionProvider value={panels}>
      <div
        className="shell"
        data-stage={stage}
        onDragOver={(event) => event.preventDefault()}
        onDrop={(event) => takeDropped(event, files.take, panels.actions.say)}
      >
        <Rail session={session} />
        <main>
          <PlanCanvas
            document={editor.state}
            results={panels.results}
            view={panels.view}
            camera={camera}
            host={host}
            theme={theme}
            laidThread={session.laidThread}
            makePainter={(place) => {
              const painter = createPagePainter(place);
              pages.attach(painter);
              return painter;
            }}
            onTyping={(char) => {
              const field = typing.current;
              if (!field) return;
              field.value = char;
              field.focus();
            }}
            onFit={session.fit}
          />
          {page === null && <p className="drop-here">Drop the roof plan here, as a PDF or DXF.</p>}
          <StatusBar session={session} typing={typing} />
        </main>
        {/* By stage, so that each begins at its top. */}
        <aside key={stage} aria-label={stage} data-lagging={isLagging(results, document)}>
          <NextSteps />
          <Panel />
        </aside>
        <Findings />
        <Questions session={session} />
      </div>
    </SessionProvider>
  );
}

function takeDropped(
  event: DragEvent,
  take: StartedSession['files']['take'],
  say: (text: string, wrong: boolean) => void,
): void {
  event.preventDefault();
  const file = event.dataTransfer.files[0];
  if (!file) return;
  file.arrayBuffer().then(
    (buffer) => take({ name: file.name, bytes: new Uint8Array(buffer), target: null }),
    () => say(`${file.name} could not be read. Copy it to this computer and drop it again.`, true),
  );
}
