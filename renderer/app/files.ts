// New, open, save, import and export; and the guard that nothing unsaved is lost on the way.
import { packJob, unpackJob } from '../../core/job/container';
import { newJob } from '../../core/job/newJob';
import type { Bridge, OpenedFile } from '../../shared/channels/bridge';
import type { Editor, OpenJob } from '../document/editor';
import type { Store } from '../document/store';
import type { PackName } from '../../shared/packs/packNames';
import type { Question } from './appSession';
import type { Autosave } from './autosave';
import { importPlan, kindOfFile } from './importing';
import type { PlanImport } from './importing';

export interface FileActions {
  newJob(): Promise<void>;
  open(): Promise<void>;
  openRecent(target: string): Promise<void>;
  /** A file from outside: a job is opened, a plan is imported. */
  take(file: OpenedFile): Promise<void>;
  importPlan(): Promise<void>;
  /** True when it is saved; false when the person thought better of it or it failed. */
  save(): Promise<boolean>;
  saveAs(): Promise<boolean>;
  exportPack(name: PackName): Promise<void>;
}

export interface FilePorts {
  readonly bridge: Bridge;
  readonly editor: Editor;
  readonly autosave: Autosave;
  readonly plan: PlanImport;
  readonly question: Store<Question | null>;
  readonly makePack: (name: PackName) => Promise<Uint8Array>;
  /** After another job is open. */
  readonly onOpened: () => void;
  readonly onSaved: () => void;
  readonly onImported: (page: string) => void;
  readonly say: (text: string, wrong: boolean) => void;
}

export function createFiles(ports: FilePorts): FileActions {
  const { bridge, editor, autosave, question, say } = ports;

  const guarded = async (task: () => Promise<void>): Promise<void> => {
    try {
      await task();
    } catch (error) {
      say(error instanceof Error ? error.message : String(error), true);
    }
  };

  const mayLeave = async (): Promise<boolean> => {
    if (!editor.state.get().unsaved) return true;
    const choice = await new Promise<'save' | 'discard' | 'cancel'>((answer) =>
      question.set({ kind: 'unsaved', answer }),
    );
    question.set(null);
    return choice === 'discard' || (choice === 'save' && (await save()));
  };

  const show = (open: OpenJob): void => {
    editor.open(open);
    autosave.startFrom(open);
    ports.onOpened();
  };

  const write = async (target: string | null): Promise<boolean> => {
    const { settled: job, drawings, name } = editor.state.get();
    try {
      const saved = await bridge.saveJob({
        name: fileName(/\.lapjob$/i.test(name) ? name : job.about.name),
        bytes: packJob(job, drawings),
        target,
      });
      if (!saved) return false;
      editor.markSaved(saved.name, saved.target);
      autosave.startFrom({ job, drawings, name: saved.name, target: saved.target });
      ports.onSaved();
      return true;
    } catch (error) {
      say(
        `${error instanceof Error ? error.message : String(error)} The job is still open and unsaved.`,
        true,
      );
      return false;
    }
  };
  const save = (): Promise<boolean> => write(editor.state.get().target);

  const takePlan = async (file: OpenedFile): Promise<void> => {
    const result = await importPlan(ports.plan, file.name, file.bytes);
    if ('fault' in result) return say(result.fault, true);
    if (result.page !== null) ports.onImported(result.page);
  };

  const takeJob = async (file: OpenedFile): Promise<void> => {
    const unpacked = unpackJob(file.bytes);
    if ('refusal' in unpacked)
      return say(`${file.name}: ${unpacked.refusal} The open job is untouched.`, true);
    if (!(await mayLeave())) return;
    show({ ...unpacked, name: file.name, target: file.target });
  };

  const take = (file: OpenedFile): Promise<void> =>
    guarded(async () => {
      const kind = kindOfFile(file.bytes);
      if (kind === 'pdf' || kind === 'dxf') return takePlan(file);
      if (kind === 'job') return takeJob(file);
      say(
        `${file.name}: this is neither a plan nor a job file. Drop a plan as PDF or DXF, or a file that ends in .lapjob.`,
        true,
      );
    });

  return {
    take,
    save,
    saveAs: () => write(null),
    newJob: () =>
      guarded(async () => {
        if (!(await mayLeave())) return;
        show(emptyJob());
      }),
    open: () =>
      guarded(async () => {
        const file = await bridge.openFile('job');
        if (file) await take(file);
      }),
    openRecent: (target) => guarded(async () => take(await bridge.openRecent(target))),
    importPlan: () =>
      guarded(async () => {
        const file = await bridge.openFile('plan');
        if (file) await take(file);
      }),
    exportPack: (name) =>
      guarded(async () => {
        const { job } = editor.state.get();
        const bytes = await ports.makePack(name);
        const done = await bridge.exportFile({ name: `${bare(job.about.name)} ${name}`, bytes });
        if (done) say(`${name} written.`, false);
      }),
  };
}

export function emptyJob(): OpenJob {
  const today = new Date();
  const two = (value: number): string => String(value).padStart(2, '0');
  const date = `${today.getFullYear()}-${two(today.getMonth() + 1)}-${two(today.getDate())}`;
  return { job: newJob({ name: 'New job', date }), drawings: new Map(), name: 'New job', target: null };
}

const bare = (name: string): string => name.replace(/[/\\:*?"<>|]/g, '-').trim() || 'Job';
const fileName = (name: string): string => (/\.lapjob$/i.test(name) ? bare(name) : `${bare(name)}.lapjob`);
