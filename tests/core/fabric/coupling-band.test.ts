/** Source: made-up knits of fibres and rubber, whose answer to any stretch is a closed form (Treloar 1975 for the rubber). */
import { describe, expect, it } from 'vitest';

import { bandFactors, couplingBand, STRUCTURAL_SHARE } from '../../../core/fabric/coupling-band.ts';
import { reciprocalCoupling } from '../../../core/fabric/coupling.ts';
import { createTensionResponse, evaluateTension } from '../../../core/fabric/evaluate-tension.ts';
import { idealCurve, lawFromStrips } from '../../../core/fabric/law-from-strips.ts';
import { readBenchSheet } from '../../../core/io/read-bench-sheet.ts';
import type { LooseSheet } from '../../help/demo-sheet.ts';
import { demoSheet } from '../../help/demo-sheet.ts';
import { randomFrom } from '../../help/random.ts';

interface MadeUpKnit {
  /** Rubber between the fibres, N/m. */
  readonly rubber: number;
  /** Families of fibres: cos^2 of their angle to the warp, stiffness in N/m, how fast they stiffen. */
  readonly fibres: readonly {
    readonly cos2: number;
    readonly stiffness: number;
    readonly stiffening: number;
  }[];
  /** Fibres that only pull. */
  readonly oneSided: boolean;
}

/** Force per original width along warp and weft at stretch ratios u and v. */
function pullOf(knit: MadeUpKnit, u: number, v: number): readonly [number, number] {
  let warp = knit.rubber * (u - 1 / (u ** 3 * v ** 2));
  let weft = knit.rubber * (v - 1 / (v ** 3 * u ** 2));
  for (const { cos2, stiffness, stiffening } of knit.fibres) {
    const length = Math.sqrt(cos2 * u * u + (1 - cos2) * v * v);
    const stretch = length - 1;
    if (knit.oneSided && stretch <= 0) continue;
    const tension = (stiffness * (stretch + stiffening * stretch ** 3)) / length;
    warp += tension * cos2 * u;
    weft += tension * (1 - cos2) * v;
  }
  return [warp, weft];
}

/** A strip: the width at which nothing pulls across, by bisection. */
function stripOf(knit: MadeUpKnit, along: 0 | 1) {
  const points = [1.05, 1.1, 1.15, 1.2, 1.3, 1.4, 1.5, 1.6].map((stretch) => {
    const at = (width: number) => (along === 0 ? pullOf(knit, stretch, width) : pullOf(knit, width, stretch));
    let low = 0.2;
    let high = 1.5;
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (at(middle)[1 - along]! < 0) low = middle;
      else high = middle;
    }
    return { stretch, tension: at(low)[along], width: low };
  });
  return {
    load: points.map(({ stretch, tension }) => [stretch, tension] as const),
    width: points.map(({ stretch, width }) => [stretch, width] as const),
  };
}

function madeUp(random: () => number, oneSided: boolean): MadeUpKnit {
  const family = (cos2: number, most: number) => ({
    cos2,
    stiffness: most * random(),
    stiffening: 6 * random(),
  });
  const angle = Math.PI * (0.15 + 0.2 * random());
  return {
    rubber: 20 + 80 * random(),
    fibres: [family(1, 200), family(0, 200), family(Math.cos(angle) ** 2, 300)],
    oneSided,
  };
}

/** How often the true tensions of a panel of held width (5 to 30 %, either way) lie in the band: along, across. */
function shareInside(knits: readonly MadeUpKnit[]): { along: number; across: number } {
  const response = createTensionResponse();
  const inside = { along: 0, across: 0, of: 0 };
  for (const knit of knits) {
    const strips = { warp: stripOf(knit, 0), weft: stripOf(knit, 1), shear: { modulus: 20 } };
    const found = reciprocalCoupling(idealCurve(strips.warp), idealCurve(strips.weft), 0.1);
    const evidence = { from: 'reciprocity', disagreement: found.disagreement, lateStart: false } as const;
    const band = couplingBand(found.coupling, evidence, null);
    const laws = [band.low, band.shown, band.high].map((coupling) => lawFromStrips({ ...strips, coupling }));
    for (const stretch of [1.05, 1.1, 1.2, 1.3]) {
      for (const along of [0, 1] as const) {
        const [u, v] = along === 0 ? [stretch, 1] : [1, stretch];
        const truth = pullOf(knit, u, v);
        const pulls = laws.map((law) => {
          evaluateTension(law, Float64Array.of(u, 0, 0, 0, v, 0), false, response);
          return [response.stress[0]!, response.stress[4]!] as const;
        });
        const form = STRUCTURAL_SHARE * Math.max(...pulls[1]!);
        const isInside = (part: 0 | 1): boolean =>
          truth[part] >= Math.min(pulls[0]![part], pulls[2]![part]) - form &&
          truth[part] <= Math.max(pulls[0]![part], pulls[2]![part]) + form;
        inside.of++;
        if (isInside(along)) inside.along++;
        if (isInside(along === 0 ? 1 : 0)) inside.across++;
      }
    }
  }
  return { along: inside.along / inside.of, across: inside.across / inside.of };
}

describe('made-up knits whose biaxial answer is known', () => {
  it('lie in the band nine times out of ten where elastane pulls and pushes (40 knits, seed 70)', () => {
    const random = randomFrom(70);
    const share = shareInside(Array.from({ length: 40 }, () => madeUp(random, false)));
    expect(share.along).toBeGreaterThan(0.9);
    expect(share.across).toBeGreaterThan(0.9);
  });

  it('lie in it three times out of four where elastane only pulls: the band is no certainty (40 knits, seed 63)', () => {
    const random = randomFrom(63);
    const share = shareInside(Array.from({ length: 40 }, () => madeUp(random, true)));
    expect(share.along).toBeGreaterThan(0.75);
    expect(share.across).toBeGreaterThan(0.75);
  });
});

const read = (change: (sheet: LooseSheet) => void) => {
  const sheet = demoSheet();
  change(sheet);
  return readBenchSheet(JSON.stringify(sheet));
};
const held = (sheet: LooseSheet): void => {
  sheet.stretch.heldWidth = {
    direction: 'weft',
    load: [
      [10, 1.38],
      [20, 2.66],
      [30, 3.92],
    ],
  };
};

describe('the band of a fabric', () => {
  it('is widest for an assumed width, narrowest for a held one', () => {
    const spans = (
      [
        ['assumed width', 1],
        ['reciprocity', 2],
        ['reciprocity', 1],
        ['held width', 1],
      ] as const
    ).map(([from, disagreement]) => bandFactors({ from, disagreement, lateStart: false }));
    for (let i = 1; i < spans.length; i++) {
      expect(spans[i]!.high / spans[i]!.low).toBeLessThan(spans[i - 1]!.high / spans[i - 1]!.low);
    }
    expect(bandFactors({ from: 'reciprocity', disagreement: 1, lateStart: true })).toEqual(spans[1]);
  });

  it.each([
    ['reciprocity', 0.6, 1.2, () => undefined],
    ['held width', 0.8, 1.25, held],
    ['assumed width', 0.1, 3.5, (s: LooseSheet) => delete s.stretch.warp.width],
  ] as const)('rests on %s', (from, low, high, change) => {
    const { band, bandLaws, laws } = read((s) => {
      delete s.stretch.bias.width;
      change(s);
    });
    expect(band!.from).toBe(from);
    expect(band!.shown).toBe(laws.load.coupling);
    expect(band!.low / band!.shown).toBeCloseTo(low, 9);
    expect(band!.high / band!.shown).toBeLessThanOrEqual(high + 1e-9);
    expect(bandLaws!.load.low.coupling).toBe(band!.low);
    expect(bandLaws!.load.high.coupling).toBe(band!.high);
    expect(bandLaws!.return).not.toBeNull();
  });

  it('does not believe a held strip whose own width was assumed', () => {
    const { band } = read((s) => {
      held(s);
      delete s.stretch.weft.width;
    });
    expect(band!.from).toBe('assumed width');
  });

  it('spans the coupling that a bias width of its own opinion asks for', () => {
    const { band, findings } = read((s) =>
      s.stretch.bias.width!.forEach((r) => (r[1] = r[1]! * (1 + r[0]! / 2500))),
    );
    const said = findings.find((finding) => finding.code === 'bench/bias-width-differs')!;
    const { ratio } = said.facts as { ratio: number };
    expect(band!.low / band!.shown).toBeLessThanOrEqual(Math.max(Math.min(ratio, 0.6), 0.1) + 1e-9);
  });
});

describe('the next reading', () => {
  it.each<[string, (s: LooseSheet) => void]>([
    ['both widths', (s) => [delete s.stretch.warp.width, delete s.stretch.weft.width]],
    ['held-width', () => undefined],
  ])('is %s', (reading, change) => {
    const { nextReading } = read(change);
    expect(nextReading!.reading).toContain(reading);
    expect(nextReading!.extension).toBeCloseTo(0.2, 12);
    expect(nextReading!.after.high - nextReading!.after.low).toBeLessThan(
      nextReading!.now.high - nextReading!.now.low,
    );
  });

  it('is none where a held width was read', () => {
    expect(read(held).nextReading).toBeNull();
  });

  it('tells the band of the crosswise tension that the laws at its ends give', () => {
    const { bandLaws, laws, nextReading } = read((s) => delete s.stretch.bias.width);
    const response = createTensionResponse();
    const spans = (['warp', 'weft'] as const).map((lengthwise) => {
      const f = lengthwise === 'warp' ? [1.2, 0, 0, 0, 1, 0] : [1, 0, 0, 0, 1.2, 0];
      // Per current width: the panel is as wide as it was, and 1.2 times as long.
      const [low, shown, high] = [bandLaws!.load.low, laws.load, bandLaws!.load.high].map((law) => {
        evaluateTension(law, Float64Array.from(f), false, response);
        const [warp, weft] = [response.stress[0]!, response.stress[4]!];
        return lengthwise === 'warp'
          ? { along: warp, across: weft / 1.2 }
          : { along: weft, across: warp / 1.2 };
      });
      return {
        low: (low!.across - shown!.across) / shown!.along,
        high: (high!.across - shown!.across) / shown!.along,
      };
    });
    const widest = spans.toSorted((a, b) => b.high - b.low - (a.high - a.low))[0]!;
    expect(nextReading!.now.low).toBeCloseTo(widest.low, 3);
    expect(nextReading!.now.high).toBeCloseTo(widest.high, 3);
  });
});
