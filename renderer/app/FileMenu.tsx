// The job's own menu, under its name: files, what can be taken away, theme, keys.
import { useEffect, useRef, useState } from 'react';
import type { PackName } from '../../shared/packs/packNames';
import { Switch } from '../ui/Choice';
import { useStore } from '../ui/useStore';
import type { StartedSession } from './startSession';

const EXPORTS: readonly { name: PackName; text: string }[] = [
  { name: 'bid.pdf', text: 'Bid, PDF' },
  { name: 'order.pdf', text: 'Order, PDF' },
  { name: 'roof.pdf', text: 'Roof map, PDF' },
  { name: 'order.csv', text: 'Order, CSV' },
  { name: 'cut-list.csv', text: 'Cut list, CSV' },
  { name: 'welds.csv', text: 'Welds, CSV' },
  { name: 'bid.xlsx', text: 'Bid, workbook' },
  { name: 'layout.dxf', text: 'Layout, DXF' },
];

export function FileMenu({ session, name }: { readonly session: StartedSession; readonly name: string }) {
  const { files, settings, question } = session;
  const recent = useStore(session.recent);
  const { theme } = useStore(settings);
  const [open, setOpen] = useState(false);
  const menu = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!open) return;
    const close = (event: Event): void => {
      if (event instanceof KeyboardEvent && event.key !== 'Escape') return;
      if (event.type === 'pointerdown' && menu.current?.contains(event.target as Node)) return;
      setOpen(false);
    };
    window.addEventListener('pointerdown', close);
    window.addEventListener('keydown', close);
    return () => {
      window.removeEventListener('pointerdown', close);
      window.removeEventListener('keydown', close);
    };
  }, [open]);

  const item = (text: string, key: string, act: () => unknown) => (
    <button
      type="button"
      role="menuitem"
      onClick={() => {
        setOpen(false);
        void act();
      }}
    >
      <span>{text}</span>
      <kbd>{key}</kbd>
    </button>
  );

  return (
    <div className="file-menu" ref={menu}>
      <button
        type="button"
        className="job-name"
        aria-haspopup="menu"
        aria-expanded={open}
        aria-label={`${name}: file menu`}
        onClick={() => setOpen(!open)}
      >
        {name}
      </button>
      {open && (
        <div className="menu" role="menu" aria-label="File">
          {item('New job', 'Ctrl N', files.newJob)}
          {item('Open…', 'Ctrl O', files.open)}
          {item('Save', 'Ctrl S', files.save)}
          {item('Save as…', 'Ctrl Shift S', files.saveAs)}
          {item('Import a plan…', 'Ctrl I', files.importPlan)}
          {recent.length > 0 && <h3>Recent</h3>}
          {recent.slice(0, 6).map((file) => (
            <span key={file.target}>{item(file.name, '', () => files.openRecent(file.target))}</span>
          ))}
          <h3>Take away</h3>
          {EXPORTS.map(({ name: pack, text }) => (
            <span key={pack}>{item(text, '', () => files.exportPack(pack))}</span>
          ))}
          <h3>Window</h3>
          <div className="menu-line">
            <span>Theme</span>
            <Switch
              label="Theme"
              value={theme}
              options={[
                { value: 'system', text: 'System' },
                { value: 'light', text: 'Light' },
                { value: 'dark', text: 'Dark' },
              ]}
              onChoose={(chosen) => settings.update((s) => ({ ...s, theme: chosen }))}
            />
          </div>
          {item('Keys', '?', () => question.set({ kind: 'keys' }))}
        </div>
      )}
    </div>
  );
}
