import type { LegendSubject } from '../../core/sheet/legend.ts';
import { pretendField, pretendTube } from './pretend-result.ts';

/** A pressure field on an elliptic tube with a hollow off the skin, 0 to 4 kPa. */
export function defaultLegendParts(): { subject: LegendSubject } {
  const { vertexArea, columns } = pretendTube();
  const values = Array.from(vertexArea, (_, v) =>
    v % columns === 0 ? Number.NaN : 5000 * Math.abs(Math.sin(v)),
  );
  return {
    subject: {
      field: pretendField(values),
      range: { low: 0, high: 4000 },
      vertexArea,
      isDifference: false,
    },
  };
}
