/** The heart loop solved directly, independent of core: for checking the closed formula. */

interface End {
  readonly angle: number;
  readonly x: number;
  readonly y: number;
}

const add = (a: readonly number[], b: readonly number[], share: number): number[] =>
  a.map((value, i) => value + share * b[i]!);

/**
 * Marches half the loop from the clamp to its lowest point. Length of the whole strip 1, bending stiffness 1:
 * th'' = w (1/2 - s) cos th + F sin th, x' = cos th, y' = sin th, from th = 90 degrees (the strip leaves the clamp upwards).
 */
function march(load: number, curvature: number, force: number): End {
  const steps = 400;
  const h = 0.5 / steps;
  let state = [Math.PI / 2, curvature, 0, 0];
  const rate = (s: number, [angle, bend]: readonly number[]): number[] => [
    bend!,
    load * (0.5 - s) * Math.cos(angle!) + force * Math.sin(angle!),
    Math.cos(angle!),
    Math.sin(angle!),
  ];
  for (let i = 0; i < steps; i++) {
    const s = i * h;
    const k1 = rate(s, state);
    const k2 = rate(s + h / 2, add(state, k1, h / 2));
    const k3 = rate(s + h / 2, add(state, k2, h / 2));
    const k4 = rate(s + h, add(state, k3, h));
    state = state.map((value, j) => value + (h / 6) * (k1[j]! + 2 * k2[j]! + 2 * k3[j]! + k4[j]!));
  }
  return { angle: state[0]!, x: state[2]!, y: state[3]! };
}

/** Newton in the clamp's curvature and the loop's inner force until the lowest point is level and in the middle. */
function solve(
  load: number,
  start: readonly [number, number],
): { at: [number, number]; height: number } | null {
  let [curvature, force] = start;
  for (let i = 0; i < 60; i++) {
    const end = march(load, curvature, force);
    const rest = [end.angle + Math.PI, end.x] as const;
    if (!Number.isFinite(rest[0]) || Math.abs(rest[0]) > 50) return null;
    if (Math.hypot(...rest) < 1e-10) return { at: [curvature, force], height: -end.y };
    const h = 1e-5;
    const byCurvature = march(load, curvature + h, force);
    const byForce = march(load, curvature, force + h);
    const a = (byCurvature.angle - end.angle) / h;
    const b = (byForce.angle - end.angle) / h;
    const c = (byCurvature.x - end.x) / h;
    const d = (byForce.x - end.x) / h;
    const whole = a * d - b * c;
    curvature -= Math.max(-3, Math.min(3, (d * rest[0] - b * rest[1]) / whole));
    force -= Math.max(-20, Math.min(20, (a * rest[1] - c * rest[0]) / whole));
  }
  return null;
}

/**
 * Height of a heart loop over the strip's length, at w L^3 / B = `load`: followed from the weightless loop, the plain one
 * without crossings (the lowest of those found).
 */
export function heartLoopHeight(load: number): number {
  const found = [-14, -10, -6, -2, 2, 6].flatMap((curvature) =>
    [-80, -40, 0, 40, 80].flatMap((force) => solve(0, [curvature, force]) ?? []),
  );
  let loop = found.filter(({ height }) => height > 0).toSorted((a, b) => a.height - b.height)[0]!;
  for (let i = 1; i <= 10; i++) loop = solve((i / 10) * load, loop.at)!;
  return loop.height;
}
