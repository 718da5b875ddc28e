import { createTensionResponse, evaluateTension } from '../fabric/evaluate-tension.ts';
import type { Check } from './check.ts';
import { linearLaw } from './settled-tube.ts';

const STIFFNESS = 500;
/** Stretch at the far edge: so little that the slack edge is not turned inside out. */
const STRETCH = 1.03;
const FIBRES = 4000;

/** Moment over pull times height, and the part of the height that has gone slack. */
const STATES = [
  [1 / 6, 0],
  [0.2, 0.1],
  [0.25, 0.25],
  [0.3, 0.4],
  [0.4, 0.7],
  [0.45, 0.85],
] as const;

/**
 * A stretched strip bent in its plane: the side towards which it bends goes slack and carries nothing, b / h of the
 * height where M / (P h) = 1/6 + b / (3 h). The law itself is asked, fibre by fibre, stretch rising in a straight line
 * from the slack edge.
 */
export function wrinkledStrip(): Check[] {
  const law = linearLaw(STIFFNESS);
  const response = createTensionResponse();
  const tension = (stretch: number): number => {
    evaluateTension(law, Float64Array.of(stretch, 0, 0, 0, 1, 0), false, response);
    return response.stress[0]!;
  };
  return STATES.map(([expected, slack]) => {
    let pull = 0;
    let moment = 0;
    for (let i = 0; i < FIBRES; i++) {
      const at = (i + 0.5) / FIBRES;
      const force = tension(1 + ((STRETCH - 1) * (at - slack)) / (1 - slack)) / FIBRES;
      pull += force;
      moment += force * (at - 0.5);
    }
    return {
      id: `wrinkles.slack-${slack}`,
      what: `moment that leaves ${String(100 * slack)} % of a bent strip slack`,
      source:
        'Stein & Hedgepeth 1961, NASA TN D-813 (from memory), checked by balance: M / (P h) = 1/6 + b / (3 h)',
      expected,
      got: moment / pull,
      unit: 'M / (P h)',
      tolerance: 0.01 * expected,
    };
  });
}
