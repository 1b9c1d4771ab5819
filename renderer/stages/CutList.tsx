// How each roll is cut: one bar a roll, its pieces where they lie along it and across it, and what is left.
import { useState } from 'react';
import { formatLength } from '../../core/units/lengths';
import type { RoofEstimate } from '../../core/job/result';
import type { Rates } from '../../core/rates/schema';
import type { RollCut } from '../../core/sheets/types';
import { Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

const ROLLS_AT_ONCE = 40;

interface BarPiece {
  /** A sheet, the edge that a flashing strip is for, the drain or the slit sheet that a patch is for. */
  readonly sheet: string;
  readonly kind: 'sheet' | 'edge' | 'fitting';
  /** What is cut out of an offcut, in words; null for the roll's own sheets. */
  readonly outOfOffcut: string | null;
  readonly length: number;
  /** Shares of the roll: along it from its start, and across it from its low edge. */
  readonly left: number;
  readonly wide: number;
  readonly low: number;
  readonly high: number;
}

interface Bar {
  readonly roll: RollCut;
  readonly roof: string;
  readonly pieces: readonly BarPiece[];
}

export function CutList() {
  const { job, estimate, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const [shown, setShown] = useState(ROLLS_AT_ONCE);
  const bars = (estimate?.roofs ?? []).flatMap((roof) => barsOf(roof, job.rates));
  if (bars.length === 0) return null;
  return (
    <Section title={`Cut list, ${bars.length} ${bars.length === 1 ? 'roll' : 'rolls'}`}>
      <ul className="cuts" aria-label="Cut list">
        {bars.slice(0, shown).map(({ roll, roof, pieces }) => (
          <li key={`${roof} ${roll.id}`}>
            <span className="cut-roll">{roll.id}</span>
            <span className="cut-bar">
              {pieces.map((piece) => (
                <button
                  key={`${piece.sheet} ${piece.left} ${piece.low}`}
                  type="button"
                  className={pieceClass(
                    piece,
                    selection.some((p) => p.id === piece.sheet),
                  )}
                  style={{
                    left: `${piece.left * 100}%`,
                    width: `${piece.wide * 100}%`,
                    bottom: `${piece.low * 100}%`,
                    height: `${piece.high * 100}%`,
                  }}
                  title={`${piece.outOfOffcut ?? piece.sheet}, ${formatLength(piece.length, job.display)}`}
                  onClick={() => actions.pick([{ kind: piece.kind, id: piece.sheet, roof }])}
                >
                  {piece.outOfOffcut === null && piece.wide > 0.25 && piece.high > 0.8 ? piece.sheet : ''}
                </button>
              ))}
            </span>
            <span className="cut-figure">{formatLength(roll.offcut, job.display)}</span>
          </li>
        ))}
      </ul>
      <p className="soft">
        The last figure is what the sheets leave of the roll; flashing strips and patches out of it are pale.
        Click a piece to see where it lies.
      </p>
      {bars.length > shown && (
        <button type="button" className="quiet" onClick={() => setShown(shown + 200)}>
          {bars.length - shown} more
        </button>
      )}
    </Section>
  );
}

function pieceClass({ outOfOffcut }: BarPiece, picked: boolean): string {
  return [outOfOffcut === null ? '' : 'strip', picked ? 'on' : ''].join(' ').trim();
}

function barsOf({ id, layout, reused, cutPatches }: RoofEstimate, rates: Rates): readonly Bar[] {
  if (!layout) return [];
  const widths = new Map(layout.sheets.map((sheet) => [sheet.id, sheet.width]));
  return layout.cutList.rolls.map((roll) => {
    const product = rates.rolls.find((one) => one.id === roll.product);
    const end = Math.max(...roll.pieces.map((piece) => piece.start + piece.length));
    const length = product?.length ?? end + roll.offcut;
    const width = product?.width ?? Math.max(...roll.pieces.map((piece) => widths.get(piece.sheet) ?? 0));
    const pieces = roll.pieces.map((piece): BarPiece => ({
      kind: 'sheet',
      outOfOffcut: null,
      sheet: piece.sheet,
      length: piece.length,
      left: piece.start / length,
      wide: piece.length / length,
      low: piece.lane / width,
      high: (widths.get(piece.sheet) ?? width) / width,
    }));
    const strips = reused
      .filter((strip) => strip.roll === roll.id)
      .map((strip): BarPiece => ({
        kind: 'edge',
        outOfOffcut: 'flashing strip',
        sheet: strip.edge,
        length: strip.length,
        left: strip.start / length,
        wide: strip.length / length,
        low: strip.lane / width,
        high: strip.height / width,
      }));
    const patches = cutPatches.flatMap(({ kind, on, from, ...size }): BarPiece[] =>
      from?.roll !== roll.id
        ? []
        : [
            {
              kind: kind === 'target' ? 'fitting' : 'sheet',
              outOfOffcut: kind === 'target' ? 'target sheet' : 'strip over a slit',
              sheet: on,
              length: size.length,
              left: from.start / length,
              wide: size.length / length,
              low: from.lane / width,
              high: size.width / width,
            },
          ],
    );
    return { roll, roof: id, pieces: [...pieces, ...strips, ...patches] };
  });
}
