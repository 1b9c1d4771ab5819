// Puts a page of an imported plan under a drawing: to the crop box, turned and scaled as it is displayed, with its
// layers. The PDF library alone would ignore all four.
import { PDFArray, PDFDict, PDFDocument, PDFName, PDFNumber, PDFRef, PDFStream } from '@cantoo/pdf-lib';
import type { PDFContext, PDFPage } from '@cantoo/pdf-lib';
import { looksLikeDxf } from '../readers/looksLikeDxf';
import type { Pack } from './canvas';

export interface PlanUnderlay {
  readonly ref: PDFRef;
  /** Size of the page as displayed, points. */
  readonly width: number;
  readonly height: number;
  /** From the plan's user space to its displayed page. */
  readonly toDisplayed: readonly [number, number, number, number, number, number];
}

/** `number` counts from 1. A plan that cannot be embedded gives the reason in words. */
export async function embedPlanPage(
  pack: Pack,
  bytes: Uint8Array,
  number: number,
): Promise<PlanUnderlay | { readonly why: string }> {
  if (looksLikeDxf(bytes)) return { why: 'it is a DXF drawing, and only a PDF page can be embedded' };
  try {
    const source = await PDFDocument.load(bytes, { updateMetadata: false });
    const page = source.getPages()[number - 1];
    if (!page) return { why: `it has no page ${number}` };
    const box = displayedBox(page);
    const embedded = await pack.pdf.embedPage(
      page,
      { left: box[0], bottom: box[1], right: box[2], top: box[3] },
      [1, 0, 0, 1, 0, 0],
    );
    await embedded.embed();
    carryLayers(source, page, pack.pdf, embedded.ref);
    return { ref: embedded.ref, ...displayed(page, box) };
  } catch (error) {
    return { why: error instanceof Error ? error.message : 'it cannot be read' };
  }
}

type Box = readonly [left: number, bottom: number, right: number, top: number];

function displayedBox(page: PDFPage): Box {
  const media = page.getMediaBox();
  const crop = page.getCropBox();
  const left = Math.max(media.x, crop.x);
  const bottom = Math.max(media.y, crop.y);
  const right = Math.min(media.x + media.width, crop.x + crop.width);
  const top = Math.min(media.y + media.height, crop.y + crop.height);
  if (right > left && top > bottom) return [left, bottom, right, top];
  return [media.x, media.y, media.x + media.width, media.y + media.height];
}

function displayed(page: PDFPage, [left, bottom, right, top]: Box): Omit<PlanUnderlay, 'ref'> {
  const unitObject = page.node.lookupMaybe(PDFName.of('UserUnit'), PDFNumber);
  const unit = unitObject && unitObject.asNumber() > 0 ? unitObject.asNumber() : 1;
  const [wide, tall] = [(right - left) * unit, (top - bottom) * unit];
  switch (((page.getRotation().angle % 360) + 360) % 360) {
    case 90:
      return { width: tall, height: wide, toDisplayed: [0, -unit, unit, 0, -bottom * unit, right * unit] };
    case 180:
      return { width: wide, height: tall, toDisplayed: [-unit, 0, 0, -unit, right * unit, top * unit] };
    case 270:
      return { width: tall, height: wide, toDisplayed: [0, unit, -unit, 0, top * unit, -left * unit] };
    default:
      return { width: wide, height: tall, toDisplayed: [unit, 0, 0, unit, -left * unit, -bottom * unit] };
  }
}

/** The embedded copy keeps the names of its layers but not which are switched off: that stands in the catalog. */
function carryLayers(source: PDFDocument, page: PDFPage, target: PDFDocument, embedded: PDFRef): void {
  const properties = source.catalog.lookupMaybe(PDFName.of('OCProperties'), PDFDict);
  const original = page.node.Resources();
  const copy = target.context.lookup(embedded, PDFStream).dict.lookupMaybe(PDFName.of('Resources'), PDFDict);
  if (!properties || !original || !copy) return;
  const groups = new Map<string, PDFRef>();
  pairGroups({ from: source.context, to: target.context }, original, copy, groups, new Set());
  if (groups.size === 0) return;
  const off = switchedOff(properties);
  const kept = target.catalog.lookupMaybe(PDFName.of('OCProperties'), PDFDict);
  const known = kept?.lookupMaybe(PDFName.of('OCGs'), PDFArray);
  const hidden = kept?.lookupMaybe(PDFName.of('D'), PDFDict)?.lookupMaybe(PDFName.of('OFF'), PDFArray);
  const all = [...(known?.asArray() ?? []), ...groups.values()];
  const hiddenNow = [...groups].filter(([ref]) => off(ref)).map(([, ref]) => ref);
  target.catalog.set(
    PDFName.of('OCProperties'),
    target.context.obj({
      OCGs: all,
      D: { Order: all, OFF: [...(hidden?.asArray() ?? []), ...hiddenNow], BaseState: 'ON' },
    }),
  );
}

function switchedOff(properties: PDFDict): (ref: string) => boolean {
  const config = properties.lookupMaybe(PDFName.of('D'), PDFDict);
  const named = (key: string) =>
    new Set((config?.lookupMaybe(PDFName.of(key), PDFArray)?.asArray() ?? []).map(String));
  const [on, off] = [named('ON'), named('OFF')];
  const base = config?.get(PDFName.of('BaseState'));
  return base === PDFName.of('OFF') ? (ref) => !on.has(ref) : (ref) => off.has(ref);
}

/** Walks the resources and their copy side by side; a layer's place in both is the same. */
function pairGroups(
  contexts: { from: PDFContext; to: PDFContext },
  original: PDFDict,
  copy: PDFDict,
  groups: Map<string, PDFRef>,
  seen: Set<PDFDict>,
): void {
  if (seen.has(original)) return;
  seen.add(original);
  const pairs = (key: string) => {
    const a = original.lookupMaybe(PDFName.of(key), PDFDict);
    const b = copy.lookupMaybe(PDFName.of(key), PDFDict);
    return a && b ? a.keys().map((name) => [a.get(name), b.get(name)] as const) : [];
  };
  for (const [from, to] of pairs('Properties')) {
    if (from instanceof PDFRef && to instanceof PDFRef) {
      const group = contexts.from.lookup(from);
      const same = contexts.to.lookup(to);
      if (group instanceof PDFDict && same instanceof PDFDict) notePair(from, group, to, same, groups);
    }
  }
  for (const [from, to] of pairs('XObject')) {
    const a = contexts.from.lookup(from);
    const b = contexts.to.lookup(to);
    if (!(a instanceof PDFStream && b instanceof PDFStream)) continue;
    const inner = a.dict.lookupMaybe(PDFName.of('Resources'), PDFDict);
    const innerCopy = b.dict.lookupMaybe(PDFName.of('Resources'), PDFDict);
    if (inner && innerCopy) pairGroups(contexts, inner, innerCopy, groups, seen);
  }
}

/** A membership dictionary names its groups; a group stands for itself. */
function notePair(
  from: PDFRef,
  group: PDFDict,
  to: PDFRef,
  same: PDFDict,
  groups: Map<string, PDFRef>,
): void {
  if (group.get(PDFName.of('Type')) !== PDFName.of('OCMD')) {
    groups.set(String(from), to);
    return;
  }
  const listed = (dict: PDFDict) => {
    const value = dict.get(PDFName.of('OCGs'));
    return value instanceof PDFArray ? value.asArray() : value ? [value] : [];
  };
  listed(group).forEach((ref, k) => {
    const copied = listed(same)[k];
    if (copied instanceof PDFRef) groups.set(String(ref), copied);
  });
}
