import { describe, expect, it } from 'vitest';
import { Fault } from '../../../core/fault/fault.ts';
import { checkPattern } from '../../../core/pattern/check-pattern.ts';
import type { FlatPoint, Panel, Pattern } from '../../../core/pattern/pattern.ts';
import { seamEase } from '../../../core/pattern/seam-ease.ts';
import { sayFault, sayFinding } from '../../../core/words/say.ts';
import { faultOf } from '../../help/fault-of.ts';

const SIDES = ['bottom', 'right', 'top', 'left'];

function fourSided(name: string, corners: readonly FlatPoint[]): Panel {
  return {
    name,
    edges: SIDES.map((edge, e) => ({ name: edge, points: [corners[e]!, corners[(e + 1) % 4]!] })),
  };
}

const rectangle = (name: string, width: number, height: number): Panel =>
  fourSided(name, [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ]);

const sewn = (
  panels: readonly Panel[],
  ...pairs: readonly (readonly [string, string, string, string])[]
): Pattern => ({
  name: 'sample',
  panels,
  seams: pairs.map(([one, edge, other, otherEdge]) => ({
    name: `${edge} to ${otherEdge}`,
    one: { panel: one, edge },
    other: { panel: other, edge: otherEdge },
    turned: true,
  })),
  centre: [],
});

/** A quarter of a circle round the origin, m. */
const arc = (radius: number) =>
  Array.from({ length: 31 }, (_, i): FlatPoint => {
    const angle = (Math.PI * i) / 60;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });

const quarter = (radius: number): Panel => ({
  name: 'quarter',
  edges: [
    { name: 'arc', points: arc(radius) },
    { name: 'up', points: [arc(radius).at(-1)!, [0, 0]] },
    { name: 'out', points: [[0, 0], arc(radius)[0]!] },
  ],
});

const codesOf = (pattern: Pattern): string[] => checkPattern(pattern).map(({ code }) => code);

describe('checkPattern', () => {
  it('says nothing but what is open of two rectangles sewn side to side', () => {
    const pattern = sewn([rectangle('a', 0.1, 0.2), rectangle('b', 0.1, 0.2)], ['a', 'right', 'b', 'left']);
    expect(codesOf(pattern)).toEqual(['pattern/edges-free']);
  });

  it('says ease over 5 %, measured over the shorter edge', () => {
    const panels = [rectangle('a', 0.1, 0.2), rectangle('b', 0.1, 0.212)];
    const pattern = sewn(panels, ['a', 'right', 'b', 'left']);
    expect(seamEase(pattern, pattern.seams[0]!)).toEqual({
      one: 0.2,
      other: 0.212,
      difference: expect.closeTo(0.012, 12),
      ratio: expect.closeTo(0.06, 12),
    });
    const finding = checkPattern(pattern).find(({ code }) => code === 'pattern/ease-large')!;
    expect(sayFinding(finding)).toContain('a right is 200 mm long and b left 212 mm, 6.0 % apart');
    const within = sewn([rectangle('a', 0.1, 0.2), rectangle('b', 0.1, 0.209)], ['a', 'right', 'b', 'left']);
    expect(codesOf(within)).not.toContain('pattern/ease-large');
  });

  it('says where an open edge gets a corner at a seam: the angles in a trapezium are its own', () => {
    // The side leans by atan(0.05 / 0.2) = 14 degrees: 90 + 104 at one end, 90 + 76 at the other.
    const leaning = fourSided('b', [
      [0, 0],
      [0.1, 0],
      [0.1, 0.2],
      [0.05, 0.2],
    ]);
    const pattern = sewn([rectangle('a', 0.1, 0.2), leaning], ['a', 'right', 'b', 'left']);
    const sums = checkPattern(pattern).flatMap((finding) =>
      finding.code === 'pattern/corner-not-square' ? [finding.facts.degrees] : [],
    );
    const lean = (Math.atan2(0.05, 0.2) * 180) / Math.PI;
    expect(sums.toSorted((a, b) => a - b)).toEqual([
      expect.closeTo(180 - lean, 9),
      expect.closeTo(180 + lean, 9),
    ]);
  });

  it('takes a centre edge as the seam to its own mirror image', () => {
    const panel = fourSided('a', [
      [0, 0],
      [0.1, 0],
      [0.1, 0.2],
      [0, 0.22],
    ]);
    const pattern: Pattern = { ...sewn([panel]), centre: [{ panel: 'a', edge: 'left' }] };
    const corners = checkPattern(pattern).filter(({ code }) => code === 'pattern/corner-not-square');
    expect(corners).toHaveLength(1);
  });

  it('says a point where too little cloth meets: two squares sewn together on all sides', () => {
    const pattern = sewn(
      [rectangle('a', 0.1, 0.1), rectangle('b', 0.1, 0.1)],
      ...(['bottom bottom', 'right left', 'top top', 'left right'] as const).map((pair) => {
        const [one, other] = pair.split(' ') as [string, string];
        return ['a', one, 'b', other] as const;
      }),
    );
    const findings = checkPattern(pattern);
    expect(findings.map(({ code }) => code)).toEqual(
      Array.from({ length: 4 }, () => 'pattern/point-not-flat'),
    );
    expect(sayFinding(findings[0]!)).toContain('add up to 180 degrees');
  });

  it('says turns that no mesh follows: a quarter circle of 10 mm radius, not one of 100 mm', () => {
    // 30 mm of an arc of 100 mm radius turn by 0.3 rad = 17 degrees.
    expect(codesOf(sewn([quarter(0.1)]))).toEqual(['pattern/edges-free']);
    const [sharp] = checkPattern(sewn([quarter(0.01)]));
    expect(sharp).toMatchObject({ code: 'pattern/turns-sharply', facts: { panel: 'quarter', edge: 'arc' } });
    // A quarter turn, less the half steps at both ends of the polyline.
    expect((sharp!.facts as { degrees: number }).degrees).toBeCloseTo(90 - 3, 6);
  });

  it('says edges sewn twice and panels not sewn', () => {
    const panels = ['a', 'b', 'c'].map((name) => rectangle(name, 0.1, 0.2));
    const pattern = sewn(panels, ['a', 'right', 'b', 'left'], ['a', 'right', 'b', 'right']);
    expect(codesOf(pattern)).toEqual(expect.arrayContaining(['pattern/sewn-twice', 'pattern/panel-unsewn']));
  });

  it('refuses a seam to an edge that is not there', () => {
    const fault = faultOf(() => checkPattern(sewn([rectangle('a', 0.1, 0.2)], ['a', 'right', 'b', 'left'])));
    expect(fault).toBeInstanceOf(Fault);
    expect(sayFault(fault).what).toContain('"left" of a panel "b"');
  });
});
