import { describe, expect, it } from 'vitest';
import { compareWorn, fieldDifference } from '../../../core/judgement/compare.ts';
import { differenceSentence, swapSentence } from '../../../core/words/judgement-words.ts';
import { pretendField, pretendGirths, pretendSettled, pretendTube } from '../../help/pretend-result.ts';

const none = Number.NaN;
const stretch = (values: number[]) => pretendField(values, { id: 'stretchAcross', unit: 'ratio' });

describe('difference of a field', () => {
  it('is the second less the first, and turns its sign with the order', () => {
    const a = pretendField([100, 200, 0]);
    const b = pretendField([150, 120, 0]);
    const there = fieldDifference(a, b);
    const back = fieldDifference(b, a);
    expect([...there.values]).toEqual([50, -80, 0]);
    there.values.forEach((value, v) => expect(value + back.values[v]!).toBe(0));
    expect(there.kind).toBe('symmetric');
  });

  it('counts a pressure off the skin as none, and is missing only where both are', () => {
    const difference = fieldDifference(pretendField([100, none, none]), pretendField([none, 80, none]));
    expect([...difference.values]).toEqual([-100, 80, 0]);
    expect([...difference.undefinedAt]).toEqual([0, 0, 1]);
  });

  it('is missing where either stretch is: a slack stretch is unknown, not none', () => {
    const difference = fieldDifference(stretch([0.2, none]), stretch([none, 0.1]));
    expect([...difference.undefinedAt]).toEqual([1, 1]);
  });

  it('of a fabric with itself is zero everywhere', () => {
    const { worn } = pretendSettled();
    for (const field of worn[0]!.fields) {
      expect(fieldDifference(field, field).values.every((value) => value === 0)).toBe(true);
    }
  });
});

describe('band of a difference', () => {
  const a = pretendField([1000, 1000, none], { band: { low: -0.1, high: 0.05 } });
  const b = pretendField([1100, 1500, none], { band: { low: -0.2, high: 0.1 } });

  it('takes each fabric at its own worst end', () => {
    const { band, values } = fieldDifference(a, b);
    // low of B less high of A, high of B less low of A.
    expect([...band!.low]).toEqual([880 - 1050, 1200 - 1050, 0].map((one) => expect.closeTo(one, 9)));
    expect([...band!.high]).toEqual([1210 - 900, 1650 - 900, 0].map((one) => expect.closeTo(one, 9)));
    values.forEach((value, v) => expect(band!.low[v]! <= value && value <= band!.high[v]!).toBe(true));
  });

  it('turns its ends with the order, and is missing where either fabric bears none', () => {
    const there = fieldDifference(a, b).band!;
    const back = fieldDifference(b, a).band!;
    there.low.forEach((low, v) => expect(low + back.high[v]!).toBe(0));
    expect(fieldDifference(a, pretendField([1, 2, none])).band).toBeUndefined();
  });
});

describe('comparison by place', () => {
  const tube = pretendTube();
  const cloth = {
    positions: tube.mesh.positions,
    triangles: tube.mesh.triangles,
    edgeVertex: tube.edgeVertex,
    vertexArea: tube.vertexArea,
  };
  /** The second fabric presses 600 Pa less on the sides at the waist and above, 100 Pa less elsewhere. */
  const first = Array.from(tube.vertexArea, () => 1000);
  const second = first.map((value, v) => {
    const angle = (2 * Math.PI * (v % tube.columns)) / tube.columns;
    const isWaist = Math.abs(tube.mesh.positions[3 * v + 1]! - 1.045) < 0.034;
    return value - (isWaist && Math.abs(Math.sin(angle)) > 0.75 ? 600 : 100);
  });
  const { pressurePlaces } = compareWorn(
    cloth,
    { girths: pretendGirths },
    [pretendField(first)],
    [pretendField(second)],
  );

  it('puts the place where it matters most first', () => {
    const [most] = pressurePlaces;
    expect(most!.place).toMatchObject({ level: 'waist', side: 'bothSides' });
    expect(most!.first).toBeCloseTo(1000, 6);
    expect(most!.difference).toBeLessThan(-300);
    for (const place of pressurePlaces) expect(place.difference).toBeCloseTo(place.second - place.first, 9);
  });

  it('says so in one sentence', () => {
    const place = { level: 'waist', height: 1.045, side: 'bothSides', hem: null } as const;
    expect(differenceSentence({ place, first: 2100, second: 1300, difference: -800, area: 0.01 })).toBe(
      'B presses 0.8\u00a0kPa less at the waist sides (2.1 to 1.3\u00a0kPa).',
    );
    expect(differenceSentence({ place, first: 2100, second: 2120, difference: 20, area: 0.01 })).toBe(
      'A and B press alike at the waist sides.',
    );
    expect(swapSentence(pressurePlaces)).toMatch(
      /^B presses 0\.\d\s?kPa less at the waist sides and 0\.\d less at the /,
    );
    expect(swapSentence([])).toMatch(/No place/);
  });

  const place = { level: 'waist', height: 1.045, side: 'bothSides', hem: null } as const;
  const swap = (first: number, second: number, [low, high]: readonly [number, number]) => ({
    place,
    first,
    second,
    difference: second - first,
    band: {
      first: { low: first, high: first },
      second: { low: second, high: second },
      difference: { low, high },
    },
    area: 0.01,
  });

  it('says a sure difference with its band, smaller end first', () => {
    expect(differenceSentence(swap(2100, 1300, [-1100, -500]))).toBe(
      'B presses 0.8\u00a0kPa less at the waist sides (2.1 to 1.3\u00a0kPa, band 0.5 to 1.1).',
    );
    expect(swapSentence([swap(1300, 2100, [500, 1100])])).toBe(
      'B presses 0.8\u00a0kPa more at the waist sides (0.5 to 1.1).',
    );
  });

  it('says no sure difference where the band reaches from less to more', () => {
    expect(differenceSentence(swap(2100, 1900, [-600, 100]))).toBe(
      'No sure difference at the waist sides: 0.2\u00a0kPa less is shown, the band reaches from 0.6\u00a0kPa less to 0.1\u00a0kPa more.',
    );
    expect(swapSentence([swap(2100, 1900, [-600, 100])])).toBe(
      'No sure difference between A and B: 0.2\u00a0kPa less at the waist sides, band 0.6 less to 0.1 more.',
    );
  });

  it('puts a sure place before a larger one that is not', () => {
    const sure = { ...swap(1300, 1000, [-400, -200]), place: { ...place, level: 'hip' } };
    expect(swapSentence([swap(2100, 1500, [-1300, 100]), sure])).toBe(
      'B presses 0.3\u00a0kPa less at the hip sides (0.2 to 0.4).',
    );
  });

  it('calls alike what no band makes worth a word', () => {
    expect(differenceSentence(swap(1000, 1010, [-20, 40]))).toBe('A and B press alike at the waist sides.');
    expect(swapSentence([swap(1000, 1010, [-20, 40])])).toBe('A and B press alike everywhere.');
  });

  it('carries the bands of both fabrics to each place', () => {
    const banded = compareWorn(
      cloth,
      { girths: pretendGirths },
      [pretendField(first, { band: { low: -0.1, high: 0.05 } })],
      [pretendField(second, { band: { low: -0.1, high: 0.05 } })],
    ).pressurePlaces;
    for (const { first: a, second: b, band } of banded) {
      expect(band!.first.low).toBeCloseTo(0.9 * a, 6);
      expect(band!.difference.low).toBeCloseTo(0.9 * b - 1.05 * a, 6);
      expect(band!.difference.high).toBeCloseTo(1.05 * b - 0.9 * a, 6);
    }
  });
});
