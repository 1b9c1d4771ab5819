// The layout as a drawing for others' programs: sheets, welds, roof edges, fittings and labels on layers of their own,
// in roof millimetres. Written by a library; nothing of our own file format.
import { DxfWriter, LWPolylineFlags, point2d, point3d, Units } from '@tarikjabiri/dxf';
import { drawRoof } from '../../core/drawing/drawRoof';
import type { Shape } from '../../core/drawing/types';
import type { PackInput } from './writePack';

/** Layer names by what is on them; plain, since every program reads them. */
const LAYERS: Readonly<Record<string, { readonly name: string; readonly colour: number }>> = {
  'roof-edge': { name: 'ROOF', colour: 7 },
  opening: { name: 'OPENINGS', colour: 7 },
  film: { name: 'SHEETS', colour: 8 },
  'weld-machine': { name: 'WELDS-MACHINE', colour: 7 },
  'weld-hand': { name: 'WELDS-HAND', colour: 9 },
  't-joint': { name: 'T-JOINTS', colour: 9 },
  target: { name: 'TARGET-SHEETS', colour: 7 },
  slit: { name: 'SLITS', colour: 7 },
  'roof-line': { name: 'ROOF-LINES', colour: 7 },
  flutes: { name: 'FLUTES', colour: 8 },
  fastener: { name: 'FASTENERS', colour: 8 },
  fitting: { name: 'FITTINGS', colour: 7 },
  label: { name: 'LABELS', colour: 7 },
};
const LABEL_MM = 250;
/** A mark that has no size on the roof is drawn so large. */
const LEAST_MARK_MM = 100;

export function layoutDxf({ job, estimate }: Pick<PackInput, 'job' | 'estimate'>): Uint8Array {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  for (const { name, colour } of Object.values(LAYERS)) dxf.addLayer(name, colour, 'Continuous');
  for (const roof of estimate.roofs)
    for (const layer of drawRoof(roof, estimate.weldPlan, job.display).layers)
      for (const shape of layer.shapes) draw(dxf, shape);
  return new TextEncoder().encode(dxf.stringify());
}

function draw(dxf: DxfWriter, shape: Shape): void {
  const layerName = LAYERS[shape.style]?.name;
  if (!layerName) return;
  const options = { layerName };
  const at = ([x, y]: readonly [number, number]) => point3d(x, y, 0);
  switch (shape.kind) {
    case 'area':
      for (const ring of shape.rings)
        dxf.addLWPolyline(
          ring.map(([x, y]) => ({ point: point2d(x, y) })),
          { ...options, flags: LWPolylineFlags.Closed },
        );
      return;
    case 'line':
      dxf.addLine(at(shape.from), at(shape.to), options);
      return;
    case 'mark':
      dxf.addCircle(at(shape.at), Math.max(shape.size, LEAST_MARK_MM) / 2, options);
      return;
    case 'row': {
      const [dx, dy] = [shape.to[0] - shape.from[0], shape.to[1] - shape.from[1]];
      const length = Math.hypot(dx, dy) || 1;
      for (let k = 0; k < shape.count; k++) {
        const along = (shape.first + k * shape.step) / length;
        dxf.addPoint(shape.from[0] + dx * along, shape.from[1] + dy * along, 0, options);
      }
      return;
    }
    case 'text':
      dxf.addText(at(shape.at), LABEL_MM, shape.text, { ...options, rotation: shape.angle });
  }
}
