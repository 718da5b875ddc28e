/** Source: closed forms; de Boor, A Practical Guide to Splines, 1978, ch. IV (minimum of the bending integral). */
import { describe, expect, it } from 'vitest';
import { naturalSpline, sampleSpline } from '../../../core/units/natural-spline.ts';

const knots = Float64Array.of(-1, 0.5, 1, 3, 4.5, 5);

const at = (spline: ReturnType<typeof naturalSpline>, x: number): { value: number; slope: number } => {
  const values = new Float64Array(spline.channelCount);
  const slopes = new Float64Array(spline.channelCount);
  sampleSpline(spline, x, values, slopes);
  return { value: values[0]!, slope: slopes[0]! };
};

describe('natural splines', () => {
  it('give straight lines back, and hold the end values beyond the knots', () => {
    const spline = naturalSpline(
      knots,
      knots.map((x) => 2 - 3 * x),
    );
    for (const x of [-1, -0.2, 0.5, 2.2, 4.9]) expect(at(spline, x).value).toBeCloseTo(2 - 3 * x, 12);
    expect(at(spline, 2.2).slope).toBeCloseTo(-3, 12);
    expect(at(spline, -4)).toEqual({ value: 5, slope: 0 });
    expect(at(spline, 9)).toEqual({ value: -13, slope: 0 });
  });

  it('keep channels apart', () => {
    const rows = Float64Array.from([...knots].flatMap((x) => [x * x, Math.sin(x)]));
    const both = naturalSpline(knots, rows);
    const second = naturalSpline(knots, knots.map(Math.sin));
    const values = new Float64Array(2);
    sampleSpline(both, 2.3, values, new Float64Array(2));
    expect(values[1]).toBe(at(second, 2.3).value);
  });

  it('pass through the knots with continuous slope and curvature, and none at the ends', () => {
    const spline = naturalSpline(knots, knots.map(Math.sin));
    const h = 1e-6;
    const curvature = (x: number): number => (at(spline, x + h).slope - at(spline, x - h).slope) / (2 * h);
    for (const x of knots) expect(at(spline, x).value).toBeCloseTo(Math.sin(x), 12);
    for (const x of knots.slice(1, -1)) {
      expect(at(spline, x - 1e-9).slope).toBeCloseTo(at(spline, x + 1e-9).slope, 7);
      expect(curvature(x - 2 * h)).toBeCloseTo(curvature(x + 2 * h), 4);
    }
    expect(curvature(knots[0]! + 2 * h)).toBeCloseTo(0, 4);
    expect(curvature(knots.at(-1)! - 2 * h)).toBeCloseTo(0, 4);
  });

  it('solve the three-knot case as worked by hand', () => {
    // Values 0, 1, 0 at 0, 1, 2: 4 s''(1) = 6 (-1 - 1), so s(t) = t - (t^3 - t) / 2 before 1.
    const spline = naturalSpline(Float64Array.of(0, 1, 2), Float64Array.of(0, 1, 0));
    expect(at(spline, 0.5).value).toBeCloseTo(11 / 16, 14);
    expect(at(spline, 0).value).toBe(0);
  });
});
