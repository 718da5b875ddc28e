import { useLayoutEffect, useMemo, useRef, type ReactElement } from 'react';
import type { FieldId } from '../../core/fields/field.ts';
import { rampBytes, TEXEL_COUNT, type RampName } from '../../core/sheet/colour-scale.ts';
import { rampFor } from '../../core/sheet/field-range.ts';
import { holdStretches } from '../../core/sheet/hold-level.ts';
import { legendOf, type Legend as LegendSheet, type LegendEdge } from '../../core/sheet/legend.ts';
import { areaText } from '../../core/sheet/number-format.ts';
import { hatchStroke, OUTSIDE_COLOURS } from '../../core/sheet/outside-colours.ts';
import {
  BAND_MEANING,
  bandFromWords,
  bandLine,
  fieldHeading,
  missingWords,
} from '../../core/words/field-words.ts';
import { HOLD_SHORT } from '../../core/words/judgement-words.ts';
import { wornAt, type ShownStudy } from '../store/study-store.ts';
import { bandFrom, paintedField, rangeOf } from '../store/view-store.ts';
import { useView } from '../table.ts';
import { RangeLine } from './RangeLine.tsx';

/** The legend is a tape measure: one unit on each edge, area growing from it, every other colour a swatch of its own. */
export function Legend({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const view = useView((state) => state);
  const field = paintedField(shown.settled, view);
  const range = rangeOf(view);
  const isDifference = view.showing === 'difference';
  const { vertexArea } = wornAt(shown.settled, isDifference ? 0 : view.fabric);
  const legend = useMemo(
    () => legendOf({ field, range, vertexArea, isDifference }),
    [field, range, vertexArea, isDifference],
  );
  const isPressure = field.unit === 'Pa' && !isDifference;
  return (
    <aside className="legend" aria-label="Legend">
      <h2 className="legend-name">{fieldHeading(field.id, view.showing)}</h2>
      <Swatch
        field={field.id}
        kind="above"
        area={legend.above}
        words={`above ${legend.highLabel} ${legend.first.unit}`}
      />
      <div className="tape">
        <AreaBars legend={legend} />
        <Edge edge={legend.first} side="first" />
        <Ramp name={rampFor(field.kind, view.ramp)} />
        {legend.second !== null && <Edge edge={legend.second} side="second" />}
        {isPressure && (
          <div className="holds">
            {holdStretches(range).map(({ level, from, to }) => (
              <span
                key={level}
                className="hold"
                style={{ bottom: percent(from), height: percent(to - from) }}
              >
                {to - from > 0.035 ? HOLD_SHORT[level] : ''}
              </span>
            ))}
          </div>
        )}
      </div>
      <Swatch
        field={field.id}
        kind="below"
        area={legend.below}
        words={`below ${legend.lowLabel} ${legend.first.unit}`}
      />
      <Swatch
        field={field.id}
        kind="missing"
        area={legend.missing}
        words={missingWords(field.id, view.showing)}
      />
      {legend.band !== null && (
        <p className="band-line" title={BAND_MEANING}>
          {bandLine(legend.band)}
          <span>{bandFromWords(bandFrom(shown.settled, view))}</span>
        </p>
      )}
      <RangeLine legend={legend} settled={shown.settled} field={field} range={range} />
    </aside>
  );
}

const percent = (share: number): string => `${100 * share}%`;

/** Area per band, growing from the tape to the left; the widest fills the room. */
export function AreaBars({ legend: { bands } }: { readonly legend: LegendSheet }): ReactElement {
  const most = bands.reduce((widest, area) => Math.max(widest, area), 0);
  const height = 100 / bands.length;
  return (
    <div className="bars" role="img" aria-label={`Area per band, ${areaText(most)} in the fullest`}>
      <span className="bars-unit">to {areaText(most)}</span>
      <svg viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
        {Array.from(bands, (area, band) => {
          const width = most > 0 ? (100 * area) / most : 0;
          return (
            <rect
              key={100 - height * (band + 1)}
              x={100 - width}
              y={100 - height * (band + 1)}
              width={width}
              height={height * 0.86}
            />
          );
        })}
      </svg>
    </div>
  );
}

interface EdgeProps {
  readonly edge: LegendEdge;
  readonly side: 'first' | 'second';
}

/** One edge of the tape: its unit, its marks. */
export function Edge({ edge, side }: EdgeProps): ReactElement {
  return (
    <div className={`tape-edge ${side}`}>
      <span className="tape-unit">{edge.unit}</span>
      {edge.fine.map((at) => (
        <i key={`fine ${at}`} className="mark fine" style={{ bottom: percent(at) }} />
      ))}
      {edge.marks.map(({ at, label }) => (
        <i key={at} className="mark" style={{ bottom: percent(at) }}>
          <b>{label}</b>
        </i>
      ))}
    </div>
  );
}

/** The ramp itself, from the very bytes the cloth is painted with. */
export function Ramp({ name }: { readonly name: RampName }): ReactElement {
  const canvas = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    const pen = canvas.current?.getContext('2d');
    if (!pen) return;
    const bytes = rampBytes(name);
    const image = pen.createImageData(1, TEXEL_COUNT);
    for (let texel = 0; texel < TEXEL_COUNT; texel++) {
      image.data.set(bytes.subarray(4 * texel, 4 * texel + 4), 4 * (TEXEL_COUNT - 1 - texel));
    }
    pen.putImageData(image, 0, 0);
  }, [name]);
  return (
    <div className="ramp-room">
      <canvas ref={canvas} className="ramp" width={1} height={TEXEL_COUNT} aria-hidden="true" />
    </div>
  );
}

interface SwatchProps {
  readonly field: FieldId;
  readonly kind: 'above' | 'below' | 'missing';
  readonly area: number;
  readonly words: string;
}

const Swatch = ({ kind, area, words, field }: SwatchProps): ReactElement => (
  <div className={`swatch-line ${area > 0 ? '' : 'unused'}`}>
    <span className="swatch" style={{ background: swatchGround(kind, field) }} />
    <span>{words}</span>
    <span className="swatch-area">{area > 0 ? areaText(area) : 'none'}</span>
  </div>
);

/** The same colours as on the cloth. */
function swatchGround(kind: SwatchProps['kind'], field: FieldId): string {
  if (kind !== 'missing') return OUTSIDE_COLOURS[kind];
  const { blank } = OUTSIDE_COLOURS;
  return `repeating-linear-gradient(135deg, ${blank} 0 3px, ${hatchStroke(field)} 3px 4px)`;
}
