// The project's files as they lie on disk, without what is installed or built.
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

const LEFT_OUT = new Set(['node_modules', 'dist', '.git', '.lapstrake-versions', 'bench.json']);

/** Paths from the project's root, with `/` between, in order. */
export function allFiles(folder = root): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter(({ name }) => !LEFT_OUT.has(name) && !name.startsWith('dist-building'))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      return entry.isDirectory() ? allFiles(path) : [relative(root, path).split(sep).join('/')];
    })
    .sort();
}

export function allFolders(): string[] {
  return [...new Set(allFiles().flatMap((file) => foldersAbove(file)))].sort();
}

export function codeFiles(): string[] {
  return allFiles().filter((file) => /\.(ts|tsx)$/.test(file));
}

export function read(file: string): string {
  return readFileSync(join(root, file), 'utf8');
}

export function isFolder(path: string): boolean {
  return statSync(join(root, path), { throwIfNoEntry: false })?.isDirectory() ?? false;
}

/** What a file imports as values from other files of the project, as paths without extension. */
export function valueImports(file: string): string[] {
  const clauses = read(file).matchAll(
    /^\s*(?:import|export)\s+(?!type\b)(?:[^'";]*?\sfrom\s+)?['"](\.[^'"]+)['"]/gms,
  );
  return [...clauses].map(([, source = '']) =>
    relative(root, join(root, dirname(file), source))
      .split(sep)
      .join('/'),
  );
}

function foldersAbove(file: string): string[] {
  const parts = file.split('/').slice(0, -1);
  return parts.map((_part, k) => parts.slice(0, k + 1).join('/'));
}
