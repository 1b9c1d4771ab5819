// The ESLint rule that holds every import against the table in import-table.mjs.
import { dirname, join, posix, relative, sep } from 'node:path';
import { importTable } from './import-table.mjs';

const root = join(import.meta.dirname ?? dirname(new URL(import.meta.url).pathname), '..');
const folders = Object.keys(importTable).sort((a, b) => b.length - a.length);

/** The table's row for a file, by its deepest listed folder; undefined where no row covers it. */
export function folderOf(file) {
  return folders.find((folder) => file.startsWith(`${folder}/`));
}

const matches = (patterns, name) =>
  (patterns ?? []).some((p) => (p.endsWith('*') ? name.startsWith(p.slice(0, -1)) : name === p));

/** Why `file` may not import `source`, or null where it may. Paths from the project's root, `/` between. */
export function whyForbidden(file, source, typeOnly) {
  const home = folderOf(file);
  if (!home) return `no row of .tools/import-table.mjs covers ${file}: add the folder to the table`;
  const row = importTable[home];
  if (!source.startsWith('.')) {
    const name = source.startsWith('node:') ? source : packageName(source);
    if (matches(row.packages, name)) return null;
    return `${home} may not import the package ${name} (allowed: ${(row.packages ?? []).join(', ') || 'none'})`;
  }
  const target = posix.normalize(posix.join(posix.dirname(file), source));
  const targetFolder = folderOf(`${target}/`) ?? folderOf(target);
  if (!targetFolder) return `${target} lies in no folder of .tools/import-table.mjs`;
  if (targetFolder === home || matches(row.uses, targetFolder)) return null;
  if (typeOnly && matches(row.types, targetFolder)) return null;
  const allowed = [...(row.uses ?? []), ...(row.types ?? []).map((t) => `${t} (types)`)];
  return `${home} may not import ${typeOnly ? 'types from ' : ''}${targetFolder} (allowed: ${allowed.join(', ') || 'nothing'})`;
}

const packageName = (source) =>
  source
    .split('/')
    .slice(0, source.startsWith('@') ? 2 : 1)
    .join('/');

export const importsRule = {
  meta: { type: 'problem', schema: [] },
  create(context) {
    const file = relative(root, context.filename).split(sep).join('/');
    const check = (node, typeOnly) => {
      if (!node.source || typeof node.source.value !== 'string') return;
      const why = whyForbidden(file, node.source.value, typeOnly);
      if (why) context.report({ node, message: why });
    };
    const onlyTypes = (node) =>
      node.importKind === 'type' ||
      node.exportKind === 'type' ||
      (node.specifiers?.length > 0 && node.specifiers.every((s) => s.importKind === 'type'));
    return {
      ImportDeclaration: (node) => check(node, onlyTypes(node)),
      ExportNamedDeclaration: (node) => check(node, onlyTypes(node)),
      ExportAllDeclaration: (node) => check(node, onlyTypes(node)),
      ImportExpression: (node) => check(node, false),
      TSImportType: (node) => {
        if (node.source?.value) check({ ...node, source: node.source }, true);
      },
    };
  },
};
