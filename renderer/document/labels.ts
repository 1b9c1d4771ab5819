// What undo and redo call each command.
import type { CommandKind } from '../../core/job/commands/types';

const LABELS: Record<CommandKind, string> = {
  setAbout: 'Change job particulars',
  setDisplay: 'Change units shown',
  addDrawing: 'Import drawing',
  addPage: 'Add page',
  renamePage: 'Rename page',
  removePage: 'Remove page',
  setScale: 'Set scale',
  correctPage: 'Set the sheet right',
  setRegion: 'Set the scale of a region',
  removeRegion: 'Remove region of another scale',
  addCheck: 'Check a length',
  removeCheck: 'Remove check',
  addRoof: 'Trace roof',
  setRoof: 'Change roof',
  removeRoof: 'Remove roof',
  addLine: 'Draw line',
  setLine: 'Change line',
  removeLine: 'Remove line',
  setFacets: 'Change falls',
  pinEndLap: 'Pin end lap',
  unpinEndLap: 'Let go of end lap',
  moveMarks: 'Move roof',
  addOpening: 'Add opening',
  setOpening: 'Change opening',
  removeOpening: 'Remove opening',
  moveCorner: 'Move corner',
  moveRing: 'Move shape',
  insertCorner: 'Insert corner',
  removeCorner: 'Remove corner',
  setEdges: 'Change edges',
  placeFitting: 'Place fitting',
  setFitting: 'Change fitting',
  removeFitting: 'Remove fitting',
  setWork: 'Change the plan of work',
  moveCourse: 'Move a course to another day',
  addIssue: 'Issue the layout',
  addLogEntry: 'Write in the weld log',
  setSystem: 'Change membrane system',
  setRate: 'Change rate',
};

export function labelOf(kind: CommandKind): string {
  return LABELS[kind];
}
