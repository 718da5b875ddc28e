import { memo, useId, type ReactElement } from 'react';
import { pathOf, type Shape } from './chart-shapes.ts';

/** Distance of the slanting lines of a hatch, px. */
export const HATCH_GAP = 6;

/** The shapes of a chart as SVG. Colours come from the style sheet, light and dark. */
export const ChartShapes = memo(function ChartShapes({
  shapes,
}: {
  readonly shapes: readonly Shape[];
}): ReactElement {
  const hatch = useId();
  return (
    <g aria-hidden="true">
      <defs>
        <pattern
          id={hatch}
          width={HATCH_GAP}
          height={HATCH_GAP}
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line y2={HATCH_GAP} className="stroke-soft hatch-line" />
        </pattern>
      </defs>
      {shapes.map((shape, index) => (
        // A drawing is replaced whole: its shapes have no life of their own.
        // eslint-disable-next-line react/no-array-index-key
        <ShapeMark key={index} shape={shape} hatch={hatch} />
      ))}
    </g>
  );
});

function ShapeMark({ shape, hatch }: { readonly shape: Shape; readonly hatch: string }): ReactElement {
  switch (shape.kind) {
    case 'text':
      return (
        <text
          x={shape.at[0]}
          y={shape.at[1]}
          fontSize={shape.size}
          fontWeight={shape.weight}
          textAnchor={shape.align}
          className={`fill-${shape.ink}`}
        >
          {shape.text}
        </text>
      );
    case 'lines':
      return (
        <path
          d={pathOf(shape)}
          className={`line stroke-${shape.ink}`}
          strokeWidth={shape.width}
          strokeDasharray={shape.dash?.join(' ')}
          opacity={shape.opacity}
        />
      );
    case 'area':
      return shape.fill === 'tint' ? (
        <path d={pathOf(shape)} className="loop-tint" />
      ) : (
        <path d={pathOf(shape)} fill={`url(#${hatch})`} />
      );
    case 'dots':
      return shape.form === 'dot' || shape.form === 'square' ? (
        <path d={pathOf(shape)} className={`fill-${shape.ink}`} />
      ) : (
        <path d={pathOf(shape)} className={`open-dot stroke-${shape.ink}`} />
      );
  }
}
