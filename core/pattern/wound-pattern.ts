import { outlineOf, signedArea } from './flat-outline.ts';
import type { Panel, Pattern, PatternCurve, Seam } from './pattern.ts';

const reversed = ({ name, points }: PatternCurve): PatternCurve => ({ name, points: points.toReversed() });

/** The same panel with its loop run the other way. */
export const runBack = (panel: Panel): Panel => ({ ...panel, edges: panel.edges.map(reversed).toReversed() });

const mirrored = ({ name, points }: PatternCurve): PatternCurve => ({
  name,
  points: points.map(([x, y]) => [-x, y] as const),
});

/** A panel as seen from its other face: x becomes -x, and the grain leans the other way. */
export function turnedOver(panel: Panel): Panel {
  return {
    ...panel,
    edges: panel.edges.map(mirrored),
    ...(panel.lines && { lines: panel.lines.map(mirrored) }),
    ...(panel.grain !== undefined && { grain: -panel.grain }),
  };
}

/** The same pattern with every loop run counter-clockwise; seams know of it. */
export function woundPattern(pattern: Pattern): Pattern {
  const turned = new Set(
    pattern.panels.filter((panel) => signedArea(outlineOf(panel)) < 0).map(({ name }) => name),
  );
  if (turned.size === 0) return pattern;
  return {
    ...pattern,
    panels: pattern.panels.map((panel) => (turned.has(panel.name) ? runBack(panel) : panel)),
    seams: pattern.seams.map((seam): Seam => {
      const isChanged = turned.has(seam.one.panel) !== turned.has(seam.other.panel);
      return isChanged ? { ...seam, turned: !seam.turned } : seam;
    }),
  };
}

/**
 * The same pattern with all panels drawn from one side, that of the first: two panels that run counter-clockwise and show
 * the same face run against each other along their seam. Panels that seams do not reach stay as they are.
 */
export function facedPattern(pattern: Pattern): Pattern {
  const wound = woundPattern(pattern);
  const isOver = new Map<string, boolean>();
  for (const { name: first } of wound.panels) {
    if (isOver.has(first)) continue;
    isOver.set(first, false);
    const open = [first];
    for (let panel = open.pop(); panel !== undefined; panel = open.pop()) {
      for (const { one, other, turned } of wound.seams) {
        if (one.panel !== panel && other.panel !== panel) continue;
        const next = one.panel === panel ? other.panel : one.panel;
        if (isOver.has(next)) continue;
        isOver.set(next, turned ? isOver.get(panel)! : !isOver.get(panel)!);
        open.push(next);
      }
    }
  }
  // A panel turned over is wound the other way, which makes its seams turned.
  return woundPattern({
    ...wound,
    panels: wound.panels.map((panel) => (isOver.get(panel.name) ? turnedOver(panel) : panel)),
  });
}
