import { createTensionResponse, evaluateTension, evaluateUnrelaxed } from '../fabric/evaluate-tension.ts';
import { lawFromStrips } from '../fabric/law-from-strips.ts';
import type { IdealStrip } from '../fabric/law-from-strips.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import { pullStrip, pullStrips, STRIP_ANGLE } from '../fabric/virtual-strip.ts';
import { radiansFromDegrees } from '../units/units.ts';
import type { Check } from './check.ts';

/** Strips cut from the fitted law by computation, against closed forms. */
export function virtualStripChecks(): Check[] {
  return [...neoHookeanStrips(), ...offAxisStrips(), shearFromBiasStrip()];
}

/** Shear modulus times thickness of the ideal rubber sheet, N/m. */
const RUBBER = 100;
const RUBBER_SOURCE =
  'Neo-Hookean sheet, Treloar, The Physics of Rubber Elasticity, 1975, ch. 4: T = G (l - l^-2), width l^(-1/2)';

const rubberTension = (l: number): number => RUBBER * (l - l ** -2);

/** An ideal rubber sheet is the same in every direction: bias strip = warp strip, and its biaxial answer is known. */
function neoHookeanStrips(): Check[] {
  const stretches = Array.from({ length: 30 }, (_, i) => 1 + (i + 1) / 50);
  const strip: IdealStrip = {
    load: stretches.map((l) => [l, rubberTension(l)] as const),
    width: stretches.map((l) => [l, l ** -0.5] as const),
  };
  const law = lawFromStrips({ warp: strip, weft: strip, shear: { bias: strip } });
  const looked = [1.05, 1.1, 1.25, 1.4, 1.55];
  const checks = (['warp', 'weft', 'bias'] as const).flatMap((direction): Check[] => {
    const pulled = pullStrips(law, STRIP_ANGLE[direction], looked);
    const share = direction === 'bias' ? 0.01 : 0.001;
    return looked.flatMap((l, i): Check[] => [
      {
        id: `strip.rubber.${direction}.force-${l}`,
        source: RUBBER_SOURCE,
        expected: rubberTension(l),
        got: pulled[i]!.tension,
        unit: 'N/m',
        tolerance: share * rubberTension(l),
      },
      {
        id: `strip.rubber.${direction}.width-${l}`,
        source: RUBBER_SOURCE,
        expected: l ** -0.5,
        got: pulled[i]!.width,
        unit: '1',
        // The bias width is foretold, not fed in: 1 % of width.
        tolerance: direction === 'bias' ? 0.01 : 1e-4,
      },
    ]);
  });
  return [...checks, heldWidth(law)];
}

/** The same sheet with its width held: T = G (l - l^-3). Foretold by the coupling alone. */
function heldWidth(law: TensionLaw): Check {
  const response = createTensionResponse();
  evaluateTension(law, Float64Array.of(1.25, 0, 0, 0, 1, 0), false, response);
  const expected = RUBBER * (1.25 - 1.25 ** -3);
  return {
    id: 'strip.rubber.held-width',
    source: 'Neo-Hookean sheet in pure shear, Treloar 1975, ch. 5: T = G (l - l^-3)',
    expected,
    got: response.stress[0]!,
    unit: 'N/m',
    tolerance: 0.05 * expected,
  };
}

/** A sheet that is linear for small stretch: E1, E2, G in N/m. */
const SHEET = { e1: 300, e2: 150, contraction: 0.3, shear: 60 } as const;
const SMALL = 1.002;
const OFF_AXIS_SOURCE =
  'Lekhnitskii, Anisotropic Plates, 1968: 1/E = c^4/E1 + s^4/E2 + (1/G - 2 nu/E1) s^2 c^2';

function linearStrip(modulus: number, contraction: number): IdealStrip {
  const stretches = Array.from({ length: 20 }, (_, i) => 1 + (i + 1) / 50);
  return {
    load: stretches.map((l) => [l, modulus * (l - 1)] as const),
    width: stretches.map((l) => [l, l ** -contraction] as const),
  };
}

function linearLaw(shear: { modulus: number } | { bias: IdealStrip }): TensionLaw {
  const { e1, e2, contraction } = SHEET;
  const back = (contraction * e2) / e1;
  return lawFromStrips({
    warp: linearStrip(e1, contraction),
    weft: linearStrip(e2, back),
    shear,
    coupling: (contraction * e2) / (1 - contraction * back),
  });
}

/** Strips cut at an angle to the warp, pulled a little. */
function offAxisStrips(): Check[] {
  const law = linearLaw({ modulus: SHEET.shear });
  return (
    [
      [15, 259.8556090584139],
      [45, 162.1621621621622],
      [60, 149.06832298136646],
      [75, 148.47716607722813],
    ] as const
  ).map(([degrees, expected]) => ({
    id: `strip.off-axis.${degrees}`,
    source: OFF_AXIS_SOURCE,
    expected,
    got: pullStrip(law, radiansFromDegrees(degrees), SMALL).tension / (SMALL - 1),
    unit: 'N/m',
    tolerance: 0.02 * expected,
  }));
}

/** The way back: the shear modulus from a strip at 45 degrees, G = 1/(4/E45 - 1/E1 - 1/E2 + 2 nu/E1). */
function shearFromBiasStrip(): Check {
  const law = linearLaw({ bias: linearStrip(162.1621622, 0.3) });
  const response = createTensionResponse();
  const angle = 0.002;
  const f = Float64Array.of(1, 0, 0, Math.sin(angle), Math.cos(angle), 0);
  evaluateUnrelaxed(law, f, response);
  return {
    id: 'strip.shear-from-bias',
    source: OFF_AXIS_SOURCE,
    expected: SHEET.shear,
    got: response.stress[1]! / angle,
    unit: 'N/m',
    tolerance: 0.02 * SHEET.shear,
  };
}
