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
});
