import { expect } from 'vitest';
import { curveLength } from '../../core/pattern/arc-length.ts';
import { nearestOn, outlineOf, signedArea } from '../../core/pattern/flat-outline.ts';
import type { ImportedPattern } from '../../core/pattern/imported-pattern.ts';
import type { Pattern } from '../../core/pattern/pattern.ts';
import { wholePattern } from '../../core/pattern/whole-pattern.ts';

/**
 * Holds panels read back against those written: areas within 0.01 %, lengths between corners within 0.05 mm, grain within
 * 0.1 degrees.
 */
export function expectSamePanels(read: ImportedPattern, written: Pattern): void {
  const whole = wholePattern(written);
  expect(read.panels.map(({ name }) => name)).toEqual(whole.panels.map(({ name }) => name));
  read.panels.forEach((panel, p) => {
    const own = whole.panels[p]!;
    expect(Math.abs(signedArea(outlineOf(panel)) / signedArea(outlineOf(own)) - 1)).toBeLessThan(1e-4);
    expect(Math.abs((panel.grain ?? 0) - (own.grain ?? 0))).toBeLessThan((0.1 * Math.PI) / 180);
    expect(Math.abs(totalLength(panel) - totalLength(own))).toBeLessThan(1e-4);
    for (const edge of own.edges) {
      const length = curveLength(edge.points);
      const parts = partsOf(panel, edge.points, own.edges[0]!.points[0]!);
      expect(Math.abs(parts.length - length)).toBeLessThan(5e-5);
      expect(parts.away).toBeLessThan(2e-5);
    }
  });
}

const totalLength = ({ edges }: Pick<Pattern['panels'][number], 'edges'>): number =>
  edges.reduce((sum, { points }) => sum + curveLength(points), 0);

/** Edges that lie along a written one, and how far off they are; the sheet may have moved them. */
function partsOf(
  panel: Pattern['panels'][number],
  written: readonly (readonly [number, number])[],
  start: readonly [number, number],
): { length: number; away: number } {
  // A piece is moved as a whole: which of its corners was the first is found by trying all of them.
  let best = { length: 0, away: Infinity };
  for (const { points } of panel.edges) {
    const [dx, dy] = [start[0] - points[0]![0], start[1] - points[0]![1]];
    const parts = panel.edges
      .map((edge) => edge.points.map(([x, y]) => [x + dx, y + dy] as const))
      .map((edge) => ({ edge, away: Math.max(...edge.map((at) => nearestOn(written, at).away)) }))
      .filter(({ away }) => away < 1e-3);
    const length = parts.reduce((sum, { edge }) => sum + curveLength(edge), 0);
    const away = Math.max(0, ...parts.map((part) => part.away));
    const miss = Math.abs(length - curveLength(written)) + away;
    if (miss < Math.abs(best.length - curveLength(written)) + best.away) best = { length, away };
  }
  return best;
}
