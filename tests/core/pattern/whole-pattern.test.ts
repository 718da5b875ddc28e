import { describe, expect, it } from 'vitest';
import { curveLength } from '../../../core/pattern/arc-length.ts';
import { checkPattern } from '../../../core/pattern/check-pattern.ts';
import { drawnPattern } from '../../../core/pattern/drawn-pattern.ts';
import { liesWithin, outlineOf, signedArea } from '../../../core/pattern/flat-outline.ts';
import { seamNotches } from '../../../core/pattern/notches.ts';
import { curveOf } from '../../../core/pattern/pattern.ts';
import { sewPattern } from '../../../core/pattern/sew-pattern.ts';
import { sewnMesh } from '../../../core/pattern/sewn-mesh.ts';
import { wholePattern } from '../../../core/pattern/whole-pattern.ts';
import { halfTubePattern } from '../../help/half-tube-pattern.ts';
import { foldedYoke, halfShort } from '../../help/pattern-samples.ts';

/** V - E + T of a sewn pattern's coarsest mesh. */
function eulerNumber(pattern: Parameters<typeof sewPattern>[0]): number {
  const mesh = sewnMesh(sewPattern(pattern, { edge: 0.036, halvings: 0 })[0]!);
  const edges = new Set<string>();
  mesh.triangles.forEach((v, i) => {
    const next = mesh.triangles[3 * Math.floor(i / 3) + ((i + 1) % 3)]!;
    edges.add([v, next].toSorted((a, b) => a - b).join(' '));
  });
  return mesh.vertexCount - edges.size + mesh.panel.length;
}

const codes = (pattern: typeof halfShort) => [...new Set(checkPattern(pattern).map(({ code }) => code))];

describe('a pattern as it is cut', () => {
  it('makes left and right pieces where the centre is a curve, all counter-clockwise, with both rises sewn', () => {
    const whole = wholePattern(halfShort);
    expect(whole.panels.map(({ name }) => name)).toEqual([
      'front left',
      'front right',
      'back left',
      'back right',
    ]);
    const areas = whole.panels.map((panel) => signedArea(outlineOf(panel)));
    for (const [i, half] of [0, 0, 1, 1].entries()) {
      const drawn = Math.abs(signedArea(outlineOf(halfShort.panels[half]!)));
      expect(areas[i]!).toBeCloseTo(drawn, 12);
    }
    expect(whole.seams).toHaveLength(6);
    // All seen from outside: sewn edges run against each other.
    expect(whole.seams.every(({ turned }) => turned)).toBe(true);
    // Euler's formula: a sphere with three openings, waist and two legs.
    expect(eulerNumber(whole)).toBe(-1);
    // Left and right are mirror images, cloth and all.
    expect(whole.panels.map(({ grain }) => grain)).toEqual([undefined, undefined, -0.2, 0.2]);
  });

  it('cuts on the fold where the centre is straight and along the grain', () => {
    const tube = halfTubePattern(0.1).pattern;
    const whole = wholePattern(tube);
    expect(whole.panels.map(({ name }) => name)).toEqual(['front', 'back']);
    for (const panel of whole.panels) {
      expect(panel.edges).toHaveLength(6);
      expect(signedArea(outlineOf(panel))).toBeCloseTo(
        2 * Math.abs(signedArea(outlineOf(tube.panels[0]!))),
        12,
      );
    }
    // A tube, open at both ends.
    expect(eulerNumber(whole)).toBe(0);
    const [yoke] = wholePattern(foldedYoke).panels;
    expect(yoke!.lines!.map(({ name }) => name)).toEqual(['band left', 'band right']);
    for (const { points } of yoke!.lines!) {
      for (const end of [points[0]!, points.at(-1)!]) {
        expect(
          yoke!.edges.some((edge) => edge.points[0]![0] === end[0] && edge.points[0]![1] === end[1]),
        ).toBe(true);
      }
    }
  });

  it('cuts two where the cloth would lie askew on the fold', () => {
    const askew = {
      ...foldedYoke,
      panels: foldedYoke.panels.map((panel) => ({ ...panel, grain: Math.PI / 4 })),
    };
    expect(wholePattern(askew).panels).toHaveLength(2);
    const across = { ...askew, panels: askew.panels.map((panel) => ({ ...panel, grain: Math.PI / 2 })) };
    expect(wholePattern(across).panels).toHaveLength(1);
  });
});

describe('what is drawn on a pattern', () => {
  const whole = wholePattern(halfShort);

  it('has notches that meet: as far along both edges of a seam, and off the middle', () => {
    const notches = seamNotches(whole);
    for (const seam of whole.seams) {
      const [one, other] = [seam.one, seam.other].map((edge) => {
        const { points } = curveOf(whole, edge);
        const length = curveLength(points);
        return notches
          .filter(({ panel, edge: name }) => panel === edge.panel && name === edge.edge)
          .map(({ at }) => wayTo(points, at) / length);
      });
      expect(one!.length).toBeGreaterThan(0);
      one!.forEach((fraction, i) => {
        expect(fraction).toBeCloseTo(seam.turned ? 1 - other![i]! : other![i]!, 9);
        expect(Math.abs(fraction - 0.5)).toBeGreaterThan(0.05);
      });
    }
  });

  it('has notches and grain lines inside, and mirror images on the other side', () => {
    const { pieces, width, height } = drawnPattern(halfShort);
    for (const piece of pieces) {
      const loop = outlineOf(piece);
      for (const { at, inwards } of piece.notches) {
        expect(liesWithin([at[0] + 0.003 * inwards[0], at[1] + 0.003 * inwards[1]], loop)).toBe(true);
      }
      for (const end of [...piece.grain, piece.title]) expect(liesWithin(end, loop)).toBe(true);
      const box = loop.map(([x, y]) => [x + piece.offset[0], y + piece.offset[1]] as const);
      for (const [x, y] of box) {
        expect(x > 0 && x < width && y > 0 && y < height).toBe(true);
      }
    }
    const [left, right] = pieces;
    const mirrored = right!.notches.map(({ at }) => `${(-at[0]).toFixed(6)} ${at[1].toFixed(6)}`);
    expect(left!.notches.map(({ at }) => `${at[0].toFixed(6)} ${at[1].toFixed(6)}`).toSorted()).toEqual(
      mirrored.toSorted(),
    );
  });

  it('checks the same as the half it was drawn from', () => {
    expect(codes(whole)).toEqual(codes(halfShort));
  });
});

/** How far along a polyline a point on it lies. */
function wayTo(points: readonly (readonly [number, number])[], [x, y]: readonly [number, number]): number {
  let way = 0;
  for (let i = 1; i < points.length; i++) {
    const [ax, ay] = points[i - 1]!;
    const [bx, by] = points[i]!;
    const [before, length] = [Math.hypot(x - ax, y - ay), Math.hypot(bx - ax, by - ay)];
    if (before + Math.hypot(bx - x, by - y) - length < 1e-12) return way + before;
    way += length;
  }
  throw new Error('the point does not lie on the line');
}
