/**
 * Source of layers, texts and units: ASTM D6673-10 as public reader manuals tell it; of entities and bulges: the DXF
 * reference (bulge = tan(angle / 4)). Files written here were also read once with ezdxf 0.18.1, a general-purpose library:
 * its audit found no error, and its areas were these.
 */
import { describe, expect, it } from 'vitest';
import { readPatternDxf } from '../../../core/io/read-pattern-dxf.ts';
import { writePatternDxf } from '../../../core/io/write-pattern-dxf.ts';
import { curveLength } from '../../../core/pattern/arc-length.ts';
import { checkPattern } from '../../../core/pattern/check-pattern.ts';
import { boxOf, outlineOf, signedArea } from '../../../core/pattern/flat-outline.ts';
import { seamNotches } from '../../../core/pattern/notches.ts';
import { proposeSeams } from '../../../core/pattern/propose-seams.ts';
import { wholePattern } from '../../../core/pattern/whole-pattern.ts';
import { sayFault, sayFinding } from '../../../core/words/say.ts';
import { faultOf } from '../../help/fault-of.ts';
import { expectSamePanels } from '../../help/pattern-round-trip.ts';
import { foldedYoke, halfShort } from '../../help/pattern-samples.ts';

type Pair = readonly [number, string | number];
const text = (pairs: readonly Pair[]): string => pairs.map(([code, value]) => `${code}\n${value}\n`).join('');
const note = (words: string): Pair[] => [
  [0, 'TEXT'],
  [8, 1],
  [10, 0],
  [20, 0],
  [40, 5],
  [1, words],
];
const vertex = (x: number, y: number, bulge = 0): Pair[] => [
  [0, 'VERTEX'],
  [8, 1],
  [10, x],
  [20, y],
  ...(bulge === 0 ? [] : ([[42, bulge]] as Pair[])),
];
const polyline = (vertices: readonly Pair[][], layer = 1, closed = 1): Pair[] => [
  [0, 'POLYLINE'],
  [8, layer],
  [66, 1],
  [70, closed],
  ...vertices.flat(),
  [0, 'SEQEND'],
];
const line = (layer: number, [ax, ay, bx, by]: readonly number[]): Pair[] => [
  [0, 'LINE'],
  [8, layer],
  [10, ax!],
  [20, ay!],
  [11, bx!],
  [21, by!],
];
const point = (layer: number, x: number, y: number): Pair[] => [
  [0, 'POINT'],
  [8, layer],
  [10, x],
  [20, y],
];
const SQUARE = polyline([vertex(0, 0), vertex(100, 0), vertex(100, 200), vertex(0, 200)]);

/** A file with one block, placed once, and texts of the style. */
function file(
  block: readonly Pair[],
  { style = ['Units: METRIC'], insert = [] as readonly Pair[] } = {},
): string {
  return text([
    [0, 'SECTION'],
    [2, 'BLOCKS'],
    [0, 'BLOCK'],
    [8, 1],
    [2, 'P1'],
    [10, 0],
    [20, 0],
    ...block,
    [0, 'ENDBLK'],
    [0, 'ENDSEC'],
    [0, 'SECTION'],
    [2, 'ENTITIES'],
    [0, 'INSERT'],
    [8, 1],
    [2, 'P1'],
    [10, 0],
    [20, 0],
    ...insert,
    ...style.flatMap(note),
    [0, 'ENDSEC'],
    [0, 'EOF'],
  ]);
}

const areaOf = (source: string): number => signedArea(outlineOf(readPatternDxf(source).panels[0]!));
const codesOf = (source: string): string[] => readPatternDxf(source).findings.map(({ code }) => code);
const GRAIN = line(7, [50, 20, 50, 180]);

/** The line of the first `words` of a file, from 1, so many lines on. */
const lineOf = (source: string, words: string, on = 0): number => source.split('\n').indexOf(words) + 1 + on;

const level = (name: string, holds: string): Pair[] => [
  [0, 'BLOCK'],
  [2, name],
  ...Array.from({ length: 40 }, (): Pair[] => [
    [0, 'INSERT'],
    [2, holds],
  ]).flat(),
  [0, 'ENDBLK'],
];

describe('readPatternDxf', () => {
  it('reads METRIC as mm and ENGLISH as inches: 0.02 m2 and 645.16 times as much (an inch is 25.4 mm, exactly)', () => {
    expect(areaOf(file([...SQUARE, ...GRAIN]))).toBeCloseTo(0.02, 15);
    const english = file([...SQUARE, ...GRAIN], { style: ['UNITS:ENGLISH'] });
    expect(areaOf(english)).toBeCloseTo(0.02 * 645.16, 12);
    expect(codesOf(english)).toEqual(['pattern/piece-large']);
    expect(codesOf(file([...SQUARE, ...GRAIN], { style: [] }))).toEqual(['pattern/unit-assumed']);
    expect(readPatternDxf(file(SQUARE), { units: 'ENGLISH' }).panels[0]!.edges[0]!.points[1]![0]).toBeCloseTo(
      2.54,
    );
  });

  it('reads bulges as arcs: two of 1 are a circle, one of tan(90/4 degrees) is a quarter', () => {
    const circle = areaOf(file([...polyline([vertex(0, 0, 1), vertex(100, 0, 1)]), ...GRAIN]));
    // Chords lie within 0.01 mm of the arc: the area lacks at most 0.01 mm over all the way round.
    expect(circle).toBeLessThan(Math.PI * 0.05 ** 2);
    expect(circle).toBeGreaterThan(Math.PI * 0.05 ** 2 - 1e-5 * 2 * Math.PI * 0.05);
    const quarter = Math.tan(Math.PI / 8);
    const cake = areaOf(file(polyline([vertex(0, 0), vertex(100, 0, quarter), vertex(0, 100)])));
    expect(Math.abs(cake - (Math.PI * 0.1 ** 2) / 4)).toBeLessThan(1e-5 * 0.16);
    const bite = areaOf(file(polyline([vertex(0, 0), vertex(100, 0, -quarter), vertex(0, 100)])));
    expect(Math.abs(bite - (0.1 ** 2 - (Math.PI * 0.1 ** 2) / 4))).toBeLessThan(1e-5 * 0.16);
  });

  it('joins a chain of lines in any order and direction, and closes gaps up to 0.5 mm with a word', () => {
    const sides = [
      [0, 0, 100, 0],
      [100, 200.3, 100, 0],
      [0, 200, 100, 200],
      [0, 200, 0, 0],
    ];
    const read = readPatternDxf(file([...sides.flatMap((side) => line(1, side)), ...GRAIN]));
    expect(signedArea(outlineOf(read.panels[0]!))).toBeCloseTo(0.02, 4);
    expect(read.findings.map((finding) => sayFinding(finding))).toEqual([
      '1 gap in the outline of P1 (line 16), up to 0.30 mm wide, was closed.',
    ]);
    sides[1] = [100, 201, 100, 0];
    const fault = faultOf(() => readPatternDxf(file(sides.flatMap((side) => line(1, side)))));
    expect(fault.code).toBe('pattern/outline-open');
    expect(sayFault(fault).what).toContain('1 mm are missing');
  });

  it('places blocks as their INSERT says, mirrored ones too', () => {
    const cut = polyline([vertex(0, 0), vertex(60, 0), vertex(0, 200)]);
    const insert: Pair[] = [
      [41, -2],
      [42, 1],
      [50, 90],
    ];
    const [panel] = readPatternDxf(file([...cut, ...line(7, [10, 10, 10, 100])], { insert })).panels;
    const box = boxOf(outlineOf(panel!));
    // x -> -2x, then (x, y) -> (-y, x).
    expect([box.left, box.right, box.bottom, box.top]).toEqual(
      [-0.2, 0, -0.12, 0].map((n) => expect.closeTo(n, 12)),
    );
    expect(Math.abs(panel!.grain!)).toBeCloseTo(Math.PI / 2, 9);
  });

  it('cuts edges at corners over 30 degrees, at turn points and at notches, and keeps the notches', () => {
    const marks = [...point(2, 40, 0), ...point(4, 100, 80), ...point(82, 0, 50), ...point(4, 100.2, 199.5)];
    const { panels, notches } = readPatternDxf(file([...SQUARE, ...GRAIN, ...marks]));
    const lengths = panels[0]!.edges.map(
      ({ name, points }) => `${name} ${(1000 * curveLength(points)).toFixed(3)}`,
    );
    expect(lengths).toEqual([
      'edge1 40.000',
      'edge2 60.000',
      'edge3 80.000',
      'edge4 120.000',
      'edge5 100.000',
      'edge6 150.000',
      'edge7 50.000',
    ]);
    expect(notches).toHaveLength(3);
  });

  it('unfolds a half on its fold line, and gives a pair its mirror image', () => {
    const read = readPatternDxf(file([...SQUARE, ...GRAIN, ...line(6, [0, 0, 0, 200])]));
    expect(signedArea(outlineOf(read.panels[0]!))).toBeCloseTo(0.04, 12);
    expect(boxOf(outlineOf(read.panels[0]!)).left).toBeCloseTo(-0.1, 12);
    const off = faultOf(() => readPatternDxf(file([...SQUARE, ...line(6, [50, 0, 50, 200])])));
    expect(off.code).toBe('pattern/fold-off-outline');
    const tilted = polyline([vertex(0, 0), vertex(100, 0), vertex(60, 200), vertex(0, 200)]);
    const notes = [...note('Piece Name: leg'), ...note('Quantity: 1,1')];
    const pair = readPatternDxf(file([...tilted, ...line(7, [10, 10, 30, 110]), ...notes]));
    expect(pair.panels.map(({ name }) => name)).toEqual(['leg', 'leg mirrored']);
    expect(pair.panels[0]!.grain).toBeCloseTo(Math.atan2(20, 100), 12);
    expect(pair.panels[1]!.grain).toBeCloseTo(-Math.atan2(20, 100), 12);
    expect(signedArea(outlineOf(pair.panels[1]!))).toBeCloseTo(0.016, 12);
  });

  it('takes the sew line within the cut line as the panel, and says so', () => {
    const sew = polyline([vertex(10, 10), vertex(90, 10), vertex(90, 190), vertex(10, 190)], 14);
    const read = readPatternDxf(file([...SQUARE, ...GRAIN, ...sew, ...point(4, 100, 100)]));
    expect(signedArea(outlineOf(read.panels[0]!))).toBeCloseTo(0.08 * 0.18, 12);
    expect(read.findings.map(({ code }) => code)).toEqual(['pattern/sew-line-taken']);
    // The notch on the cut line marks the sew line beneath it.
    expect(read.notches.map(({ at }) => at)).toEqual([[expect.closeTo(0.09, 12), expect.closeTo(0.1, 12)]]);
    const half = polyline([vertex(10, 10), vertex(90, 10)], 14, 0);
    expect(codesOf(file([...SQUARE, ...GRAIN, ...half]))).toEqual(['pattern/sew-line-open']);
  });

  it('reads pieces drawn beside all blocks, and says which marks it leaves out', () => {
    const direct = text([
      [0, 'SECTION'],
      [2, 'ENTITIES'],
      ...SQUARE,
      ...GRAIN,
      ...polyline([vertex(300, 0), vertex(350, 0), vertex(350, 50)]),
      ...line(8, [0, 100, 100, 100]),
      ...line(8, [20, 30, 60, 30]),
      ...point(4, 50, 60),
      ...note('Units: METRIC'),
      [0, 'ENDSEC'],
      [0, 'EOF'],
    ]);
    const read = readPatternDxf(direct);
    expect(read.panels.map((panel) => signedArea(outlineOf(panel)))).toEqual([
      expect.closeTo(0.02, 12),
      expect.closeTo(0.00125, 12),
    ]);
    expect(read.panels[0]!.lines).toHaveLength(1);
    expect(read.panels[0]!.edges).toHaveLength(6);
    const words = read.findings.map((finding) => sayFinding(finding));
    expect(words).toEqual([
      expect.stringContaining('does not run from edge to edge'),
      'A notch of piece at x 50, y 60 mm lies 50 mm off the outline; it was left out.',
      'piece 2 has no grain line; its warp was taken to run up the drawing.',
    ]);
  });

  it('takes one of several sizes, drops doubles and says what it passes over', () => {
    const source = file([
      ...SQUARE,
      ...SQUARE,
      ...GRAIN,
      ...polyline([vertex(40, 40), vertex(60, 40), vertex(50, 60)], 11),
    ]);
    expect(codesOf(source).toSorted()).toEqual(['pattern/cut-outs-passed-over', 'pattern/duplicate-dropped']);
    const sized = (size: string, name: string): Pair[] => [
      [0, 'BLOCK'],
      [8, 1],
      [2, name],
      ...SQUARE,
      ...GRAIN,
      ...note('Piece Name: front'),
      ...note(`Size: ${size}`),
      [0, 'ENDBLK'],
    ];
    const blocks = text([
      [0, 'SECTION'],
      [2, 'BLOCKS'],
      ...sized('36', 'a'),
      ...sized('38', 'b'),
      [0, 'ENDSEC'],
      [0, 'SECTION'],
      [2, 'ENTITIES'],
      ...note('Units: METRIC'),
      ...note('Sample Size: 38'),
      [0, 'ENDSEC'],
      [0, 'EOF'],
    ]);
    const read = readPatternDxf(blocks);
    expect(read.panels.map(({ name }) => name)).toEqual(['front']);
    expect(read.findings.map((finding) => sayFinding(finding))).toEqual([
      'The file holds the sizes 36, 38; 38 was taken.',
    ]);
  });

  const bad = file(polyline([vertex(0, 0), vertex(NaN, 1)]));
  const lost = file(SQUARE).replace('INSERT\n8\n1\n2\nP1', 'INSERT\n8\n1\n2\nP2');
  const bowTie = file(polyline([vertex(0, 0), vertex(100, 100), vertex(100, 0), vertex(0, 90)]));
  const speck = file(polyline([vertex(0, 0), vertex(1, 0), vertex(1, 1)]));
  const cut = `${file(SQUARE).split('SEQEND')[0]}SEQEND\n`;
  it.each([
    ['another file', 'hello\nworld\n', 'pattern/not-dxf', 1],
    ['a number that is none', bad, 'pattern/bad-number', lineOf(bad, 'NaN')],
    ['a block that is missing', lost, 'pattern/no-such-block', lineOf(lost, 'INSERT')],
    ['a file cut off', cut, 'pattern/unfinished', lineOf(cut, 'SEQEND')],
    ['no outline', file(GRAIN), 'pattern/no-outline', null],
    ['a bow tie', bowTie, 'pattern/outline-crosses', lineOf(bowTie, 'POLYLINE')],
    ['a speck', speck, 'pattern/outline-flat', lineOf(speck, 'POLYLINE')],
    ['a binary file', 'AutoCAD Binary DXF\r\n\u001A\u0000', 'pattern/dxf-binary', 1],
  ])('refuses %s with its line', (_, source, code, at) => {
    const fault = faultOf(() => readPatternDxf(source));
    expect(fault.code).toBe(code);
    expect((fault.facts as { line?: number }).line ?? null).toBe(at);
    expect(sayFault(fault).what).not.toMatch(/undefined|NaN mm|null/);
  });

  it('says what it cannot read', () => {
    const spline: Pair[] = [
      [0, 'SPLINE'],
      [8, 1],
      [70, 8],
    ];
    const words = readPatternDxf(file([...SQUARE, ...GRAIN, ...spline, ...spline])).findings.map((finding) =>
      sayFinding(finding),
    );
    expect(words).toEqual([
      expect.stringMatching(/^2 things of the kind SPLINE were passed over, the first in line \d+\.$/),
    ]);
    expect(faultOf(() => readPatternDxf(file([...spline, ...GRAIN]))).code).toBe('pattern/no-outline');
  });

  it('refuses blocks within themselves and blocks by the billion', () => {
    const inner = file(SQUARE).replace('ENDBLK', 'INSERT\n2\nP1\n0\nENDBLK');
    expect(faultOf(() => readPatternDxf(inner)).code).toBe('pattern/blocks-in-circles');
    const bomb = text([
      [0, 'SECTION'],
      [2, 'BLOCKS'],
      [0, 'BLOCK'],
      [2, 'l0'],
      ...SQUARE,
      [0, 'ENDBLK'],
      ...[1, 2, 3, 4, 5].flatMap((n) => level(`l${n}`, `l${n - 1}`)),
      [0, 'ENDSEC'],
      [0, 'SECTION'],
      [2, 'ENTITIES'],
      [0, 'INSERT'],
      [2, 'l5'],
      [0, 'ENDSEC'],
      [0, 'EOF'],
    ]);
    expect(faultOf(() => readPatternDxf(bomb)).code).toBe('pattern/too-large');
  });
});

const joined = (pairs: readonly { one: { panel: string }; other: { panel: string } }[]) =>
  [...new Set(pairs.map(({ one, other }) => [one.panel, other.panel].toSorted().join(' - ')))].toSorted();

describe('a pattern written as DXF', () => {
  it.each(['METRIC', 'ENGLISH'] as const)('comes back with its areas and lengths, %s', (units) => {
    for (const pattern of [halfShort, foldedYoke]) {
      const read = readPatternDxf(writePatternDxf(pattern, { units, size: 'M' }));
      expect(read.findings).toEqual([]);
      expect(read.name).toBe(pattern.name);
      expectSamePanels(read, pattern);
    }
  });

  it('keeps to seven-bit text, short names and the numbered layers', () => {
    const source = writePatternDxf(
      {
        ...halfShort,
        name: 'Söhne & Töchter',
        panels: halfShort.panels.map((panel) => ({ ...panel, name: panel.name.repeat(5) })),
        seams: [],
        centre: [],
      },
      { units: 'METRIC', size: 'größe', fabrics: ['net', 'tricot'] },
    );
    expect(source).toMatch(/^[ -~\n]+$/);
    const layers = [...source.matchAll(/\n8\n(\d+)\n/g)].map(([, layer]) => Number(layer));
    expect([...new Set(layers)].toSorted((a, b) => a - b)).toEqual([1, 2, 3, 7]);
    for (const [, name] of source.matchAll(/Piece Name: (.*)/g)) expect(name!.length).toBeLessThanOrEqual(20);
    expect([...source.matchAll(/Material: (.*)/g)].map(([, name]) => name)).toEqual(['net', 'tricot']);
  });

  it('is sewn again from its notches and lengths alone, as it was', () => {
    const read = readPatternDxf(writePatternDxf(halfShort));
    const seams = proposeSeams(read).filter(({ sureness }) => sureness !== 'possible');
    const whole = wholePattern(halfShort);
    // Every seam in as many pieces as its notches make of it.
    expect(seams).toHaveLength(whole.seams.length + seamNotches(whole).length / 2);
    expect(joined(seams.map(({ seam }) => seam))).toEqual(joined(whole.seams));
    const sewn = { name: 'again', panels: read.panels, seams: seams.map(({ seam }) => seam), centre: [] };
    const codes = checkPattern(sewn).map(({ code }) => code);
    expect(codes).not.toContain('pattern/ease-large');
    expect(codes).not.toContain('pattern/point-not-flat');
    expect(codes.filter((code) => code === 'pattern/corner-not-square')).toHaveLength(
      checkPattern(whole).filter(({ code }) => code === 'pattern/corner-not-square').length,
    );
  });
});
