/**
 * Source: what was asked (girths read by slicing the finished mesh as a tape lies, ISO 8559-1:2017 from memory), counts of
 * topology, and 45 degrees at edges of 8 mm as the sharpest that cloth is asked to lie on (a demand of this project).
 * The sizes are the program's own and invented.
 */
import { describe, expect, it } from 'vitest';
import { makeFitBody } from '../../../core/body/fit-body.ts';
import { valuesOfSize } from '../../../core/body/fit-size.ts';
import { fitFromValues } from '../../../core/body/fit-values.ts';
import { ARM_LEVELS } from '../../../core/body/fit-stations.ts';
import { INVENTED_CHARTS } from '../../../core/body/size-chart-invented.ts';
import { girthOfSkin, skinFaults, uprightAlong } from '../../help/skin-checks.ts';

/** The ends of both charts; all sizes between were measured alike when the form was drawn. */
const cases = [
  ['female', '76'],
  ['female', '116'],
  ['male', '88'],
  ['male', '116'],
] as const;

describe('the form in a size of the chart', () => {
  it.each(cases)('is sound and within 1 mm of every girth asked: %s %s', (figure, size) => {
    const stature = figure === 'male' ? 1780 : 1680;
    const chart = INVENTED_CHARTS[figure === 'male' ? 'men' : 'women'];
    const { measures } = fitFromValues(valuesOfSize(chart, size, { figure, over: { stature } }), figure);
    const { skin, girths, landmarks } = makeFitBody(measures);

    const { sharpest, ...faults } = skinFaults(skin);
    expect(faults).toEqual({ unmatchedSides: 0, euler: 2, crossingPairs: 0, unmirrored: 0 });
    expect(sharpest).toBeLessThan(45);

    const asked: Readonly<Record<string, unknown>> = { ...measures, chest: measures.bust };
    const read = girths.map(({ name, level }) => {
      const onLeg = ['thigh', 'midThigh', 'knee', 'calf', 'ankle'].includes(name);
      return [name, girthOfSkin(skin, level, onLeg ? 0.1 : 0)] as const;
    });
    const shoulder = landmarks.shoulderLeft!.point;
    const elbow = landmarks.elbowLeft!.point;
    // The elbow lies 1 to 2 mm beside the axis: half a degree at most.
    const lean = Math.atan2(elbow[0] - shoulder[0], shoulder[1] - elbow[1]);
    const arm = uprightAlong(skin, shoulder, lean);
    const armRead = (['upperArm', 'elbow', 'wrist'] as const).map(
      (name) => [name, girthOfSkin(arm, (ARM_LEVELS[name] * stature) / 1680 / 1000, 0)] as const,
    );
    const misses = [...read, ...armRead].flatMap(([name, metres]) => {
      const wanted = asked[name];
      return typeof wanted === 'number' && Math.abs(metres - wanted) > 0.001 ? [[name, metres, wanted]] : [];
    });
    expect(misses).toEqual([]);
  });
});
