import { describe, expect, it } from 'vitest';

import { fabricFromReadings } from '../../../core/fabric/fabric-from-readings.ts';
import type { BenchSheet } from '../../../core/io/bench-sheet.ts';
import { checkBenchSheet, readingsOf } from '../../../core/io/read-bench-sheet.ts';
import type { DerivedNumber } from '../../../core/sheet/derived-number.ts';
import { derivedNumbers } from '../../../core/sheet/derived-numbers.ts';
import { greatestDirections, stretchUnder } from '../../../core/sheet/derived-tension.ts';
import { comparableThickness } from '../../../core/sheet/derived-weight.ts';
import {
  derivedText,
  inputText,
  sourceText,
  thicknessComparisonText,
} from '../../../core/words/card-words.ts';
import { demoSheet } from '../../help/demo-sheet.ts';

const tern = (): BenchSheet => demoSheet('tern-210') as unknown as BenchSheet;

function numbersOf(sheet: BenchSheet): readonly DerivedNumber[] {
  const readings = readingsOf(checkBenchSheet(sheet));
  return derivedNumbers(readings, fabricFromReadings(readings));
}

function numberOf(sheet: BenchSheet, id: string): DerivedNumber {
  const number = numbersOf(sheet).find((one) => one.id === id);
  if (number === undefined) throw new Error(`there is no ${id}`);
  return number;
}

const plainSpaces = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('areal density (ISO 3801: M = m / A)', () => {
  // 0.0500 m² of cloth that weighs 10.50 g has 210.0 g/m²; one strip of 50 x 200 mm then weighs 2.100 g (arithmetic).
  it('three strips on the pan together', () => {
    const strip = { lengthMm: 200, widthMm: 50, massTogetherG: [6.3, 6.31, 6.29] };
    const number = numberOf({ ...tern(), strip }, 'arealDensity');
    expect(number.amount).toBeCloseTo(0.21, 12);
    expect(plainSpaces(number.value)).toBe('210.0 g/m²');
    expect(number.formula).toBe('M = m / (n l w)');
    // Mean 6.300 g, n - 1 = 2: s = sqrt((0.01² + 0.01²) / 2) = 0.0100 g.
    const [mass] = number.inputs;
    expect(mass).toMatchObject({ symbol: 'm', what: 'massTogether', count: 3 });
    expect([mass!.value, mass!.deviation].map((text) => plainSpaces(text!))).toEqual(['6.300 g', '0.0100 g']);
  });

  it('strips weighed apart show each direction with its count', () => {
    const strip = { lengthMm: 200, widthMm: 50, massG: { warp: [2.09, 2.11], weft: 2.1, bias: 2.1 } };
    const number = numberOf({ ...tern(), strip }, 'arealDensity');
    expect(number.amount).toBeCloseTo(0.21, 12);
    expect(number.inputs.slice(0, 3).map(({ direction, count }) => [direction, count])).toEqual([
      ['warp', 2],
      ['weft', 1],
      ['bias', 1],
    ]);
  });
});

const at = (kPa: number) => ({ thicknessPressure: 1000 * kPa });

describe('thickness', () => {
  it('is the mean of the places, with the pressure of the foot and the standard that was named', () => {
    const thickness = { mm: [0.44, 0.45, 0.46], pressureKPa: 1, standard: 'ISO 5084' as const };
    const number = numberOf({ ...tern(), thickness }, 'thickness-1.00kPa');
    expect(number.amount).toBeCloseTo(0.00045, 12);
    expect(number.inputs[0]).toMatchObject({ count: 3 });
    expect(number.sources.map(sourceText).join()).toContain('ISO 5084:1996');
    const unnamed = { mm: 0.45, pressureKPa: 1 };
    expect(numberOf({ ...tern(), thickness: unnamed }, 'thickness-1.00kPa').sources).toEqual([]);
  });

  it('over 0.45 mm, 210 g/m² is 467 kg/m³ (arithmetic)', () => {
    const strip = { lengthMm: 200, widthMm: 50, massTogetherG: 6.3 };
    expect(numberOf({ ...tern(), strip }, 'bulkDensity').amount).toBeCloseTo(466.67, 1);
  });

  // ASTM D1777: thickness falls as pressure rises. 0.60 psi = 4.137 kPa is printed as 4.14 and 4.1.
  it('is compared at like pressures only, and says why not', () => {
    expect(comparableThickness(at(4.14), at(4.1))).toEqual({ comparable: true });
    const unlike = comparableThickness(at(1), at(4.14));
    expect(unlike).toEqual({ comparable: false, pressures: [1000, 4140] });
    expect(thicknessComparisonText(unlike)).toMatch(/1\.00 kPa.*4\.14 kPa.*one pressure/);
    expect(thicknessComparisonText(comparableThickness(at(1), at(1)))).toBeNull();
  });
});

/** 210 g/m² exactly, bent as given. */
const bent = (bending: BenchSheet['bending']): BenchSheet => ({
  ...tern(),
  strip: { lengthMm: 200, widthMm: 50, massTogetherG: 6.3 },
  bending,
});

describe('bending', () => {
  const overhangMm = { warp: [27, 29], weft: 40, bias: 28 };

  // Peirce 1930, G = M g c³ with c = l / 2: M = 210 g/m², l = 28.0 mm gives c = 14.0 mm, G = 5.651 µN·m = 57.6 mg·cm;
  // l = 40 mm gives 16.475 µN·m (worked by hand).
  it('half the overhang at 41.5 degrees, and G = M g c³ of it', () => {
    const standard = bent({ angleDeg: 41.5, overhangMm });
    expect(numberOf(standard, 'bendingLength-warp')).toMatchObject({ formula: 'c = l / 2' });
    expect(plainSpaces(numberOf(standard, 'bendingLength-warp').value)).toBe('14.0 mm');
    const warp = numberOf(standard, 'bendingRigidity-warp');
    expect([warp.value, warp.also].map((text) => plainSpaces(text!))).toEqual(['5.65 µN·m', '57.6 mg·cm']);
    expect(numberOf(standard, 'bendingRigidity-weft').amount * 1e6).toBeCloseTo(16.475, 3);
    // G0 = sqrt(5.651 * 16.475) = 9.649 µN·m.
    expect(numberOf(standard, 'overallRigidity').amount * 1e6).toBeCloseTo(9.649, 3);
  });

  // Exact heavy elastica: c / L = 0.47631 at 45 degrees, by numerical solution of B th'' = -w (L - s) cos th.
  it('other angles show the factor of the exact elastica', () => {
    const number = numberOf(bent({ angleDeg: 45, overhangMm }), 'bendingLength-bias');
    expect(number.amount / 0.028).toBeCloseTo(0.47631, 4);
    expect(number.inputs.at(-1)).toMatchObject({ what: 'elasticaFactor', value: '0.4763' });
    expect(number.sources.map(sourceText).join()).toContain('Bickley');
  });

  it('the heart loop names its own formula and option', () => {
    const heartLoop = { stripLengthMm: 150, loopHeightMm: { warp: 22, weft: 21.8, bias: 21.9 } };
    const number = numberOf(bent({ heartLoop }), 'bendingLength-warp');
    expect(number.formula).toContain('0.13386 L');
    expect(number.sources.map(sourceText).join()).toContain('option B');
  });
});

const doubled = (pairs: unknown) =>
  (pairs as [number, number][]).map(([e, f]): [number, number] => [e, 2 * f]);

describe('tension (ISO 20932-1 strip: T = F / w; ASTM D4964 loop: T = F / (2 w))', () => {
  it('shows the force read, how many strips, and the law’s own value in both units', () => {
    const number = numberOf(tern(), 'tension-warp-20');
    // The sheet reads 3.06 N on 50 mm at 20 %: 61.2 N/m; the fitted strip comes back within 0.1 %.
    expect(number.amount).toBeGreaterThan(61.2 * 0.999);
    expect(number.amount).toBeLessThan(61.2 * 1.001);
    expect(number.also).toMatch(/^3\.06.N\/50 mm$/);
    expect(plainSpaces(number.inputs[0]!.value)).toBe('3.06 N');
    expect(number).toMatchObject({ beyondReadings: false, formula: 'T = F / w' });
  });

  it('marks what lies beyond the last reading, and names that reading', () => {
    // The bias of this sheet was pulled to 60 %.
    const number = numberOf(tern(), 'tension-bias-80');
    expect(number.beyondReadings).toBe(true);
    expect(number.inputs[0]).toMatchObject({ what: 'lastReading' });
    expect(plainSpaces(number.inputs[0]!.value)).toBe('60 %');
  });

  it('a loop shows the force of both legs and the travel of the grips', () => {
    const { stretch } = tern();
    const loops = Object.fromEntries(
      (['warp', 'weft', 'bias'] as const).map((direction) => [
        direction,
        {
          ...stretch[direction],
          load: doubled(stretch[direction].load),
          return: doubled(stretch[direction].return),
        },
      ]),
    ) as Pick<BenchSheet['stretch'], 'warp' | 'weft' | 'bias'>;
    const looped = {
      ...tern(),
      stretch: { ...stretch, ...loops, test: 'loop' as const, circumferenceMm: 250, cycle: 3 },
    };
    const number = numberOf(looped, 'tension-warp-20');
    expect(number.amount).toBeCloseTo(numberOf(tern(), 'tension-warp-20').amount, 9);
    const values = Object.fromEntries(number.inputs.map(({ what, value }) => [what, plainSpaces(value)]));
    // ASTM D4964: L = E C / 200 = 20 * 250 / 200 = 25 mm.
    expect(values).toMatchObject({ loopForce: '6.12 N', gripTravel: '25.0 mm', cycle: '3' });
    expect(number.formula).toContain('F / (2 w)');
  });
});

describe('stretch under a load', () => {
  const line = {
    fitted: { extensions: Float64Array.of(0, 0.1, 0.2), tensions: Float64Array.of(0, 100, 300) },
  };

  it('is read between the points of the fitted strip, and not invented beyond them', () => {
    expect(stretchUnder(line, 200)).toBeCloseTo(0.15, 12);
    expect(stretchUnder(line, 100)).toBeCloseTo(0.1, 12);
    expect(stretchUnder(line, 301)).toBeNaN();
  });

  it('says "above" where the bench stopped short of the stated 4 N/cm', () => {
    // The warp of this sheet ends at 12.04 N per 50 mm, 80 %; 4 N/cm is 20 N per 50 mm.
    const number = numberOf(tern(), 'stretchAtLoad-warp-20.00N/50mm');
    expect(plainSpaces(number.value)).toBe('above 80 %');
    expect(number.amount).toBeNaN();
  });

  // Forces at 40 %: warp 5.80 N, weft 4.83 N, bias 3.79 N. The trade means warp or weft unless the bias is named.
  it.each([
    ['warp', 'weft'],
    ['weft', 'weft'],
    ['bias', 'bias'],
  ] as const)('where the sheet says %s, the strips show %s', (said, shown) => {
    const readings = readingsOf(checkBenchSheet({ ...tern(), greatestStretch: said }));
    const fabric = fabricFromReadings(readings);
    expect(greatestDirections(fabric.strips!, said)).toEqual([shown]);
    const number = derivedNumbers(readings, fabric).find(({ label }) => label === 'greatestStretch')!;
    expect(number.value).toBe(shown);
    expect(number.inputs.at(-1)).toMatchObject({ what: 'saidGreatest', value: said });
  });
});

describe('recovery', () => {
  // Constructed curve, N per 50 mm: 0/20/40/60/80 %, out 0/1.8/3.4/5.1/7.4, back 0/1.0/2.3/4.0/7.4. By trapezoid
  // W1 = 0.280 J, W2 = 0.220 J per 100 x 50 mm: 21.43 % by energy; (3.4 - 2.3) / 3.4 = 32.35 % by force at 40 %.
  const load: [number, number][] = [
    [20, 1.8],
    [40, 3.4],
    [60, 5.1],
    [80, 7.4],
  ];
  const back: [number, number][] = [
    [20, 1],
    [40, 2.3],
    [60, 4],
    [80, 7.4],
  ];
  const strip = { load, return: back };
  const sheet = (): BenchSheet => ({
    ...tern(),
    stretch: { gaugeMm: 100, widthMm: 50, warp: strip, weft: strip, bias: strip },
  });

  it('power loss by energy and by force are two numbers with two names', () => {
    const energy = numberOf(sheet(), 'lossByEnergy-warp');
    const force = numberOf(sheet(), 'lossByForce-warp-40');
    expect(energy.amount).toBeCloseTo(0.2143, 4);
    expect(force.amount).toBeCloseTo(0.3235, 4);
    expect(derivedText(energy)).not.toBe(derivedText(force));
    // W per area: 0.280 J over 100 x 50 mm is 56.0 J/m², 0.220 J is 44.0 J/m².
    expect(energy.inputs.slice(0, 2).map(({ value }) => plainSpaces(value))).toEqual([
      '56.00 J/m²',
      '44.00 J/m²',
    ]);
  });

  it('growth is where the strip that is let back ceases to pull', () => {
    // The demo sheet’s returns reach no force at 3, 3.5 and 3.3 %.
    const growth = numbersOf(tern()).filter(({ label }) => label === 'growth');
    expect(growth.map(({ direction, value }) => `${direction} ${plainSpaces(value)}`)).toEqual([
      'warp 3.0 %',
      'weft 3.5 %',
      'bias 3.3 %',
    ]);
  });
});

describe('every number', () => {
  const numbers = numbersOf(tern());

  it('has an id of its own, words, a unit and a formula', () => {
    expect(new Set(numbers.map(({ id }) => id)).size).toBe(numbers.length);
    for (const number of numbers) {
      expect(derivedText(number).length).toBeGreaterThan(6);
      expect(number.formula.length).toBeGreaterThan(3);
      if (number.label !== 'greatestStretch') expect(number.value).toMatch(/\d.*(%|m|m²|m³)$/);
      for (const input of number.inputs) expect(inputText(input)).not.toBe('');
    }
  });

  it('names what it goes by, and says of each source whether it was seen', () => {
    for (const { label, sources } of numbers) {
      // A sheet need name no standard for its thickness.
      if (label !== 'thickness') expect(sources.length).toBeGreaterThan(0);
      for (const source of sources) {
        const isMarked = /from memory|seen in excerpts/.test(sourceText(source));
        expect(isMarked).toBe(source.seen !== 'arithmetic');
      }
    }
  });

  it('the coupling follows from the inputs printed beside it: c = √(n₁ n₂ E₁ E₂) / (1 − n₁ n₂)', () => {
    const { inputs, amount } = numbers.find(({ label }) => label === 'coupling')!;
    const input = (symbol: string): number =>
      Number.parseFloat(inputs.find((one) => one.symbol === symbol)!.value);
    const product = input('n₁') * input('n₂');
    const coupling = Math.sqrt(product * input('E₁') * input('E₂')) / (1 - product);
    const factor = inputs.find(({ what }) => what === 'couplingFactor')?.value ?? '1';
    // Three digits are printed of each input.
    expect((coupling * Number.parseFloat(factor)) / amount).toBeCloseTo(1, 2);
  });

  it('the coupling shows its band', () => {
    const coupling = numbers.find(({ label }) => label === 'coupling')!;
    const [low, high] = coupling.inputs.map(({ value }) => Number.parseFloat(value));
    expect(low).toBeLessThan(coupling.amount);
    expect(high).toBeGreaterThan(coupling.amount);
  });
});
