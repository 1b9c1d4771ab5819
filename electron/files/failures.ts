// The system's error codes in words a person can act on.
import { done, failed, type FailureCode, type Outcome } from '../../shared/errors/failure';

/** What a file operation gave, or its failure in words. Errors without a system code are a programmer's. */
export async function attempt<T>(
  where: string,
  doing: 'read' | 'write',
  act: () => Promise<T>,
): Promise<Outcome<T>> {
  try {
    return done(await act());
  } catch (error) {
    const words = wordsFor(codeOf(error), doing);
    if (!words) throw error;
    return failed(words[0], where, words[1], words[2]);
  }
}

export function codeOf(error: unknown): string {
  return typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
}

type Words = readonly [FailureCode, string, string];

function wordsFor(code: string, doing: 'read' | 'write'): Words | null {
  if (doing === 'write' && code in WRITING) return WRITING[code] ?? null;
  return READING[code] ?? (code.startsWith('E') ? other(code, doing) : null);
}

const WRITING: Record<string, Words> = {
  EACCES: ['not-writable', 'this folder does not let you write', 'Choose another folder'],
  EPERM: [
    'not-writable',
    'the system does not allow writing here',
    'Close other programs that use the file, or choose another folder',
  ],
  EROFS: ['not-writable', 'this disk is read-only', 'Choose another disk'],
  EBUSY: ['not-writable', 'another program holds the file', 'Close it there, or save under another name'],
  ENOSPC: [
    'disk-full',
    'the disk is full',
    'Free some space or choose another disk; what was saved before is untouched',
  ],
  EDQUOT: [
    'disk-full',
    'your share of the disk is used up',
    'Free some space or choose another disk; what was saved before is untouched',
  ],
  ENOENT: ['not-found', 'the folder is not there any more', 'Choose another folder'],
  ENOTDIR: ['not-found', 'the folder is not there any more', 'Choose another folder'],
  EISDIR: ['not-a-file', 'there is a folder of this name', 'Choose another name'],
  ENAMETOOLONG: ['not-writable', 'the name is too long', 'Choose a shorter name'],
};

const READING: Record<string, Words> = {
  ENOENT: ['not-found', 'there is no such file', 'Check the name, or whether it was moved'],
  ENOTDIR: ['not-found', 'there is no such file', 'Check the name, or whether it was moved'],
  EISDIR: ['not-a-file', 'this is a folder', 'Name a file in it'],
  EACCES: [
    'not-readable',
    'you are not allowed to read it',
    'Ask for the right to read it, or copy it elsewhere',
  ],
  EPERM: ['not-readable', 'the system does not allow reading it', 'Copy it elsewhere and open it there'],
};

const other = (code: string, doing: 'read' | 'write'): Words => [
  doing === 'read' ? 'not-readable' : 'not-writable',
  `the system answered ${code}`,
  doing === 'read' ? 'Copy the file to another disk and try again' : 'Try another folder or disk',
];
