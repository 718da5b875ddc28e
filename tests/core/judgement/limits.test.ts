import { describe, expect, it } from 'vitest';
import { pressureBand, PRESSURE_BANDS, TIGHT_FROM } from '../../../core/judgement/limits.ts';
import { reviewOf } from '../../../core/judgement/review.ts';
import { HOLD_WORDS } from '../../../core/words/judgement-words.ts';
import { pretendField, pretendGirths, pretendTube } from '../../help/pretend-result.ts';

describe('bands of pressure', () => {
  it('rise, each with its source and its word', () => {
    PRESSURE_BANDS.forEach(({ from, source, level }, index) => {
      expect(from).toBeGreaterThanOrEqual(PRESSURE_BANDS[index - 1]?.from ?? 0);
      expect(source.length).toBeGreaterThan(10);
      expect(HOLD_WORDS[level]).not.toBe('');
    });
    // Source: shapewear begins at 2.0 kPa (Woodhead, Anthropometry, Apparel Sizing and Design, table 13.5, group III).
    expect(TIGHT_FROM).toBe(2000);
  });

  it('carry 30 % or 5 mmHg, whichever is larger', () => {
    // 5 mmHg = 666.6 Pa (ISO 80000-4); 30 % of 4 kPa = 1200 Pa; they meet at 2222 Pa.
    expect(pressureBand(500)).toBeCloseTo(666.6, 1);
    expect(pressureBand(4000)).toBe(1200);
  });
});

describe('review', () => {
  // Round, so that a quarter of the columns is a quarter of the area.
  const tube = pretendTube({ halfDepth: 0.16 });
  const cloth = {
    positions: tube.mesh.positions,
    triangles: tube.mesh.triangles,
    edgeVertex: tube.edgeVertex,
    vertexArea: tube.vertexArea,
  };

  it('adds areas up and takes the mean over the cloth that presses', () => {
    const isOff = (v: number): boolean => v % tube.columns < tube.columns / 4;
    const pressure = pretendField(Array.from(tube.vertexArea, (_, v) => (isOff(v) ? Number.NaN : 800)));
    const gap = pretendField(
      Array.from(tube.vertexArea, (_, v) => (isOff(v) ? 0.004 : Number.NaN)),
      { id: 'gap', unit: 'm' },
    );
    const review = reviewOf(cloth, { girths: pretendGirths }, [pressure, gap]);
    const total = tube.vertexArea.reduce((sum, area) => sum + area, 0);
    expect(review.area).toBeCloseTo(total, 12);
    expect(review.offSkinArea).toBeCloseTo(total / 4, 12);
    expect(review.meanPressure).toBeCloseTo(800, 9);
    expect(review.highestPressure).toBe(800);
    expect(review.tight).toEqual([]);
    expect(review.bridged).toHaveLength(1);
    expect(review.bridged[0]!.max).toBe(0.004);
  });

  it('has nothing to divide where nothing presses', () => {
    const pressure = pretendField(Array.from(tube.vertexArea, () => Number.NaN));
    expect(reviewOf(cloth, { girths: [] }, [pressure]).meanPressure).toBe(0);
  });
});
