import { useId, type ReactElement } from 'react';
import type { TissueCorrections } from '../../../core/body/tissue-map.ts';
import { TISSUE_WORDS } from '../../../core/words/tissue-words.ts';
import type { Brush } from '../../store/body-store.ts';
import { useBody, useTable } from '../../table.ts';
import { MeasureRow } from './MeasureRow.tsx';

interface BrushFoldProps {
  readonly tissue: TissueCorrections;
  readonly lay: (tissue: TissueCorrections) => void;
}

const RADII = { low: 10, high: 120, step: 5 } as const;
const VALUES = {
  depth: { low: 2, high: 80, step: 1 },
  modulus: { low: 5, high: 200, step: 5 },
} as const;

/** The brush: how wide, what it lays down, and the strokes that lie there. */
export function BrushFold({ tissue, lay }: BrushFoldProps): ReactElement {
  const { body, signals } = useTable();
  const id = useId();
  const brush = useBody((state) => state.brush);
  const shown = useBody((state) => state.fleshShown);
  const set = (part: Partial<Brush>): void => body.setState({ brush: { ...brush, ...part } });
  const isDepth = shown === 'depth';
  const count = tissue.strokes.length;
  return (
    <div className="brush-fold">
      <label className="try-tick" htmlFor={id}>
        <input
          id={id}
          type="checkbox"
          checked={brush.isOn}
          onChange={({ target }) => set({ isOn: target.checked })}
        />
        {TISSUE_WORDS.brushOn}
      </label>
      {brush.isOn && (
        <>
          <MeasureRow
            name={TISSUE_WORDS.radius}
            unit="mm"
            value={brush.radiusMm}
            range={RADII}
            decimals={0}
            said={undefined}
            sheet={null}
            set={(radius) => set({ radiusMm: within(radius, RADII) })}
            back={null}
          />
          <MeasureRow
            name={TISSUE_WORDS.value[shown]}
            unit={isDepth ? 'mm' : 'kPa'}
            value={isDepth ? brush.depthMm : brush.modulusKPa}
            range={VALUES[shown]}
            decimals={0}
            said={undefined}
            sheet={null}
            set={(typed) => {
              const value = within(typed, VALUES[shown]);
              set(isDepth ? { depthMm: value } : { modulusKPa: value });
            }}
            back={null}
          />
          <p className="soft">{TISSUE_WORDS.brushHint}</p>
        </>
      )}
      {(brush.isOn || count > 0) && (
        <p className="brush-deeds">
          {brush.isOn && (
            <button type="button" className="plain" onClick={() => signals.strokeMiddle.get()?.()}>
              {TISSUE_WORDS.strokeHere}
            </button>
          )}
          {count > 0 && (
            <button type="button" className="plain" onClick={() => lay({ ...tissue, strokes: [] })}>
              {TISSUE_WORDS.removeStrokes(count)}
            </button>
          )}
        </p>
      )}
    </div>
  );
}

const within = (value: number, { low, high }: { readonly low: number; readonly high: number }): number =>
  Math.min(high, Math.max(low, value));
