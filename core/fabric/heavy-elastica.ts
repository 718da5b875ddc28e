/** A strip that bends under its own weight over an edge, all lengths over the overhang L. */
export interface HeavyElastica {
  /** w L^3 / B: weight per length over bending rigidity. */
  readonly load: number;
  /** Angle of the line from the edge to the tip below the horizontal, rad. */
  readonly chordAngle: number;
  /** Tip, forward and down. */
  readonly tipForward: number;
  readonly tipDown: number;
}

/** Steps of the march along the strip; 400 leave 1e-9. */
const STEPS = 400;

/**
 * The strip whose tip hangs at a given angle below the horizontal.
 *
 * B th'' = -w (L - s) cos th. Counted from the tip in lengths of (B/w)^(1/3) it reads th'' = -t cos th with th'(0) = 0:
 * marched by fourth-order Runge-Kutta until th = 0, which is the edge, at t = (w L^3 / B)^(1/3).
 *
 * @param tipAngle - rad, above 0, below pi/2.
 * @see Bickley, Phil. Mag. 17 (1934) 603 (the heavy elastica).
 */
export function heavyElastica(tipAngle: number): HeavyElastica {
  // A first march with a step taken from small bending (tip angle = t^3 / 6); repeated once with the length found.
  let length = marchToEdge(tipAngle, Math.cbrt(6 * tipAngle) / STEPS).t;
  const end = marchToEdge(tipAngle, length / STEPS);
  length = end.t;
  return {
    load: length ** 3,
    chordAngle: Math.atan2(end.down, end.forward),
    tipForward: end.forward / length,
    tipDown: end.down / length,
  };
}

/** The strip whose chord hangs at a given angle below the horizontal; rad, above 0, below pi/2. */
export function elasticaAtChord(chordAngle: number): HeavyElastica {
  return bySearch((elastica) => elastica.chordAngle - chordAngle);
}

/** The strip under a given load w L^3 / B. */
export function elasticaUnderLoad(load: number): HeavyElastica {
  return bySearch((elastica) => elastica.load - load);
}

/** Bisection over the tip angle; both chord and load rise with it. */
function bySearch(excess: (elastica: HeavyElastica) => number): HeavyElastica {
  let low = 1e-6;
  let high = Math.PI / 2 - 1e-9;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (excess(heavyElastica(middle)) < 0) low = middle;
    else high = middle;
  }
  return heavyElastica((low + high) / 2);
}

interface Place {
  t: number;
  angle: number;
  rate: number;
  forward: number;
  down: number;
}

/** Marches from the tip until the angle is 0; the last step is cut to end there. */
function marchToEdge(tipAngle: number, step: number): Place {
  let place: Place = { t: 0, angle: tipAngle, rate: 0, forward: 0, down: 0 };
  for (let i = 0; i < 100 * STEPS; i++) {
    const next = march(place, step);
    if (next.angle <= 0) break;
    place = next;
  }
  let low = 0;
  let high = step;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (march(place, middle).angle > 0) low = middle;
    else high = middle;
  }
  return march(place, (low + high) / 2);
}

/** One Runge-Kutta step of th' = rate, rate' = -t cos th; Simpson for the tip's way. */
function march(from: Place, h: number): Place {
  const { t, angle, rate } = from;
  const r1 = -t * Math.cos(angle);
  const a2 = angle + (h / 2) * rate;
  const r2 = -(t + h / 2) * Math.cos(a2);
  const rate2 = rate + (h / 2) * r1;
  const a3 = angle + (h / 2) * rate2;
  const r3 = -(t + h / 2) * Math.cos(a3);
  const rate3 = rate + (h / 2) * r2;
  const a4 = angle + h * rate3;
  const r4 = -(t + h) * Math.cos(a4);
  const rate4 = rate + h * r3;
  const next = angle + (h / 6) * (rate + 2 * rate2 + 2 * rate3 + rate4);
  const middle = (a2 + a3) / 2;
  return {
    t: t + h,
    angle: next,
    rate: rate + (h / 6) * (r1 + 2 * r2 + 2 * r3 + r4),
    forward: from.forward + (h / 6) * (Math.cos(angle) + 4 * Math.cos(middle) + Math.cos(next)),
    down: from.down + (h / 6) * (Math.sin(angle) + 4 * Math.sin(middle) + Math.sin(next)),
  };
}
