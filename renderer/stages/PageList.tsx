// The job's pages: a small picture of each, its name, which can be changed, and the scale that it is measured by.
import { useEffect, useRef } from 'react';
import type { JobPage } from '../../core/job/schema';
import { formatScale, ratioOf } from '../../core/units/scales';
import { pageKey } from '../document/pageKey';
import { DraftField } from '../ui/DraftField';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

export function PageList() {
  const { job, view, actions } = useLive();
  const pages = Object.values(job.pages);
  if (pages.length === 0)
    return (
      <p className="empty">No drawing yet. Drop a PDF or a DXF anywhere in this window, or import one.</p>
    );
  const shown = view.page === null ? undefined : job.pages[view.page];
  return (
    <>
      <ul className="list pages" aria-label="Pages">
        {pages.map((page) => (
          <li key={page.id} className={page.id === view.page ? 'current' : undefined}>
            <button
              type="button"
              aria-current={page.id === view.page ? 'page' : undefined}
              onClick={() => actions.showPage(page.id)}
            >
              <Thumbnail page={page} />
              <span className="page-name">{page.name}</span>
              <span className="soft">{scaleOf(page, job.display)}</span>
            </button>
            <button
              type="button"
              className="quiet"
              aria-label={`Remove ${page.name}`}
              onClick={() => actions.run({ kind: 'removePage', page: page.id })}
            >
              Remove
            </button>
          </li>
        ))}
      </ul>
      {shown && (
        <DraftField
          key={shown.id}
          label="Name of this sheet"
          labelled="visible"
          align="left"
          shown={shown.name}
          onCommit={(text) => {
            const name = text.trim();
            if (name === '') return 'A sheet has a name: type at least one letter.';
            return actions.run({ kind: 'renamePage', page: shown.id, name });
          }}
        />
      )}
    </>
  );
}

function scaleOf({ scale, regions = [] }: JobPage, display: 'metric' | 'imperial'): string {
  const own = scale ? formatScale(ratioOf(scale.mmPerPoint), display) : 'no scale';
  return regions.length === 0 ? own : `${own} and ${regions.length} more`;
}

/** Of the box that a small picture is fitted into, CSS pixels. */
const BOX = { width: 60, height: 42 } as const;

function Thumbnail({ page }: { readonly page: JobPage }) {
  const { job } = useLive();
  const pictures = useStore(useSession().thumbnails);
  const canvas = useRef<HTMLCanvasElement>(null);
  const key = pageKey(job, page);
  const picture = key === null ? null : (pictures.get(key) ?? null);
  const fit = Math.min(BOX.width / page.width, BOX.height / page.height);
  const [wide, tall] = [Math.max(4, page.width * fit), Math.max(4, page.height * fit)];
  useEffect(() => {
    const ctx = canvas.current?.getContext('2d');
    if (!ctx) return;
    const { width, height } = ctx.canvas;
    ctx.clearRect(0, 0, width, height);
    ctx.imageSmoothingQuality = 'high';
    if (picture) ctx.drawImage(picture, 0, 0, width, height);
  }, [picture, wide, tall]);
  const ratio = window.devicePixelRatio || 1;
  return (
    <span className="thumb" aria-hidden="true" data-painted={picture !== null}>
      <canvas
        ref={canvas}
        width={Math.round(wide * ratio)}
        height={Math.round(tall * ratio)}
        style={{ width: wide, height: tall }}
      />
    </span>
  );
}
