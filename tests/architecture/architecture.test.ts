// The house as a whole: where files lie, how long they are, what they may name. Each message says what to do.
import { ESLint } from 'eslint';
import { existsSync, readdirSync } from 'node:fs';
import { extname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, test } from 'vitest';
import { allFiles, allFolders, codeFiles, isFolder, read, root, valueImports } from './tree';

interface Tools {
  readonly importTable: Record<string, unknown>;
}
interface Rule {
  folderOf(file: string): string | undefined;
  whyForbidden(file: string, source: string, typeOnly: boolean): string | null;
}
const tool = (name: string): Promise<unknown> => import(pathToFileURL(join(root, '.tools', name)).href);
const { importTable } = (await tool('import-table.mjs')) as Tools;
const { folderOf, whyForbidden } = (await tool('eslint-imports.mjs')) as Rule;

const code = codeFiles();

describe('the import table', () => {
  test('covers every file', () => {
    expect(code.filter((file) => !folderOf(file))).toEqual([]);
  });

  test('names only folders that exist', () => {
    expect(Object.keys(importTable).filter((folder) => !isFolder(folder))).toEqual([]);
  });

  test('fails closed', () => {
    expect(whyForbidden('core/nowhere/a.ts', './b', false)).toMatch(/no row/);
    expect(whyForbidden('core/units/a.ts', 'node:fs', false)).toMatch(/may not import/);
    expect(whyForbidden('core/units/a.ts', '../geometry/b', false)).toMatch(/may not import/);
    expect(whyForbidden('core/verify/a.ts', '../sheets/b', false)).toMatch(/may not import/);
    expect(whyForbidden('core/verify/a.ts', '../sheets/b', true)).toBeNull();
    expect(whyForbidden('renderer/document/a.ts', 'react', false)).toMatch(/may not import/);
    expect(whyForbidden('core/sheets/a.ts', '../../renderer/app/b', false)).toMatch(/may not import/);
  });

  test('core imports nothing from outside core', () => {
    const strays = code
      .filter((file) => file.startsWith('core/'))
      .flatMap((file) => valueImports(file).filter((target) => !target.startsWith('core/')));
    expect(strays).toEqual([]);
  });

  test('leaves no cycle of values between files', () => {
    expect(cycleAmong(code)).toEqual([]);
  });
});

describe('the lint rules hold in every folder', () => {
  const eslint = new ESLint({ cwd: root });
  const samples = [...new Map(code.map((file) => [folderOf(file) ?? file, file])).values()];

  test.each(samples)(
    '%s',
    async (file) => {
      const { rules = {} } = (await eslint.calculateConfigForFile(join(root, file))) as {
        rules?: Record<string, readonly unknown[]>;
      };
      const isError = (name: string): boolean => rules[name]?.[0] === 2;
      const wanted = [
        'house/imports',
        'max-lines',
        'no-restricted-syntax',
        '@typescript-eslint/no-explicit-any',
      ];
      if (file.startsWith('core/')) wanted.push('no-restricted-globals', 'no-restricted-properties');
      expect(wanted.filter((name) => !isError(name))).toEqual([]);
      const bans = JSON.stringify(rules['no-restricted-syntax']);
      expect(bans).toContain('ExportDefaultDeclaration');
      if (file.startsWith('core/')) expect(bans).toContain('kind=\\"let\\"');
    },
    20_000,
  );
});

describe('files', () => {
  test('none is over 500 lines', () => {
    const long = [...code, ...allFiles().filter((file) => /\.(mjs|css)$/.test(file))]
      .map((file) => [file, read(file).split('\n').length - 1] as const)
      .filter(([, lines]) => lines > 500);
    expect(long).toEqual([]);
  });

  test('each file of code opens with a line on what it is for', () => {
    // A test says in its names what it is for.
    const silent = code.filter((file) => !file.endsWith('.test.ts') && !/^(\/\/|\/\*\*|#!)/.test(read(file)));
    expect(silent).toEqual([]);
  });

  test('there are no barrels and no default exports', () => {
    expect(code.filter((file) => /(^|\/)index\.tsx?$/.test(file))).toEqual([]);
  });

  test('there are no empty folders', () => {
    const filled = new Set(allFolders());
    const onDisk = (folder: string): string[] =>
      readdirSync(join(root, folder), { withFileTypes: true })
        .filter((entry) => entry.isDirectory())
        .flatMap(({ name }) => {
          const path = folder === '' ? name : `${folder}/${name}`;
          return /^(node_modules|dist(-building.*)?|\.git)$/.test(path) ? [] : [path, ...onDisk(path)];
        });
    expect(onDisk('').filter((folder) => !filled.has(folder))).toEqual([]);
  });

  test('none names a path of one machine', () => {
    // Written in parts, so that this file does not name one itself.
    const places = ['root', 'home', 'work', 'farm', 'Users'].join('|');
    const machine = new RegExp(`(^|[^\\w.~/-])/(${places})/[\\w.]`);
    const text = allFiles().filter(
      (file) => !/\.(pdf|lapjob|png|woff2|ico)$/.test(file) && file !== 'package-lock.json',
    );
    const lines = text.flatMap((file) =>
      read(file)
        .split('\n')
        .filter((line) => machine.test(line))
        .map((line) => `${file}: ${line.trim().slice(0, 120)}`),
    );
    expect(lines).toEqual([]);
  });

  test('packages come from the public registry', () => {
    const hosts = [...read('package-lock.json').matchAll(/"resolved": "(https?:\/\/[^/"]+)/g)].map(
      ([, host]) => host,
    );
    expect([...new Set(hosts)].filter((host) => host !== 'https://registry.npmjs.org')).toEqual([]);
  });

  test('marks of unfinished work do not stay', () => {
    const marks = new RegExp(['TO' + 'DO', 'FIX' + 'ME', '@ts-' + 'ignore', 'eslint-' + 'disable'].join('|'));
    expect(code.filter((file) => marks.test(read(file)))).toEqual([]);
  });
});

describe('the processes', () => {
  const using = (pattern: RegExp): string[] =>
    code.filter((file) => pattern.test(read(file)) && !file.startsWith('tests/'));

  test('raw messages between processes are in one file on each side', () => {
    expect(using(/\bipcRenderer\b/)).toEqual(['electron/preload/preload.ts']);
    expect(using(/\bipcMain\b/)).toEqual(['electron/main/calls.ts']);
  });

  test('only the bridge touches what the preload exposes', () => {
    expect(
      using(/window\.lapstrake|\['lapstrake'\]/).filter((file) => !file.startsWith('renderer/bridge/')),
    ).toEqual([]);
  });
});

describe.each(['README.md', 'DEVELOPERS.md'])('%s', (name) => {
  const text = existsSync(join(root, name)) ? read(name) : '';

  test('is there', () => {
    expect(text).not.toBe('');
  });

  test('names only scripts that exist', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    const named = [...text.matchAll(/\bnpm (?:run )?(?:--silent )?([a-z][a-z:]*)/g)].map(
      ([, script = '']) => script,
    );
    const ofNpm = new Set(['ci', 'install', 'i', 'start', 'test', 'run', 'package', 'registry', 'packages']);
    expect(named.filter((script) => !ofNpm.has(script) && !(script in scripts))).toEqual([]);
  });

  test('names only paths that exist', () => {
    const tops = new Set(readdirSync(root));
    const inCode = [...text.matchAll(/`([^`\n]+)`/g)].flatMap(([, words = '']) => words.split(/\s+/));
    const links = [...text.matchAll(/\]\(([^)\s#]+)/g)].map(([, link = '']) => link);
    const paths = [...inCode, ...links]
      .map((word) => word.replace(/[,.;:]$/, '').replace(/^\.\//, ''))
      .filter((word) => !/[*<>{}$=()…]|:\/\//.test(word))
      .filter((word) => links.includes(word) || (word.includes('/') && tops.has(word.split('/')[0] ?? '')))
      .filter((word) => !word.startsWith('dist/') && !word.startsWith('node_modules/'));
    expect(paths.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });
});

/** The first cycle found, as the files along it. */
function cycleAmong(files: readonly string[]): string[] {
  const byStem = new Map(files.map((file) => [file.slice(0, -extname(file).length), file]));
  const next = (file: string): string[] =>
    valueImports(file).flatMap(
      (target) => byStem.get(target) ?? byStem.get(target.slice(0, -extname(target).length)) ?? [],
    );
  const done = new Set<string>();
  const walk = (file: string, trail: readonly string[]): string[] => {
    if (trail.includes(file)) return [...trail.slice(trail.indexOf(file)), file];
    if (done.has(file)) return [];
    for (const target of next(file)) {
      const cycle = walk(target, [...trail, file]);
      if (cycle.length > 0) return cycle;
    }
    done.add(file);
    return [];
  };
  for (const file of files) {
    const cycle = walk(file, []);
    if (cycle.length > 0) return cycle;
  }
  return [];
}
