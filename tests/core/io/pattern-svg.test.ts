/**
 * Source: W3C, SVG 1.1 (second edition): 7.6 transforms, 8.3 path data, 9 basic shapes, appendix F.6 arcs; CSS Values and
 * Units 4, 5.2: 1in = 2.54cm = 96px. Formulas from memory.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ellipticArc, svgPath } from '../../../core/io/pattern-svg-path.ts';
import { readPatternSvg } from '../../../core/io/read-pattern-svg.ts';
import { writePatternSvg } from '../../../core/io/write-pattern-svg.ts';
import { boxOf, outlineOf, signedArea } from '../../../core/pattern/flat-outline.ts';
import { curveLength } from '../../../core/pattern/arc-length.ts';
import { proposeSeams } from '../../../core/pattern/propose-seams.ts';
import { wholePattern } from '../../../core/pattern/whole-pattern.ts';
import { sayFault, sayFinding } from '../../../core/words/say.ts';
import { faultOf } from '../../help/fault-of.ts';
import { expectSamePanels } from '../../help/pattern-round-trip.ts';
import { foldedYoke, halfShort } from '../../help/pattern-samples.ts';

const svg = (inner: string, size = 'width="300mm" height="300mm" viewBox="0 0 300 300"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${size}>\n${inner}\n</svg>`;
const areaMm2 = (inner: string, size?: string): number =>
  1e6 * signedArea(outlineOf(readPatternSvg(svg(inner, size)).panels[0]!));
const codesOf = (source: string): string[] => readPatternSvg(source).findings.map(({ code }) => code);
const GRAIN = '<line class="grain" x1="50" y1="80" x2="50" y2="20"/>';

const rect = (x: number, size: number) => `<rect x="${x}" y="${x}" width="${size}" height="${size}"/>`;

describe('paths', () => {
  it('draws arcs by the parametric form of appendix F.6.3, ends exact, whatever flags, radii and turn', () => {
    const angle = fc.double({ min: -3, max: 3, noNaN: true });
    const radius = fc.double({ min: 1, max: 100, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({
          rx: radius,
          ry: radius,
          phi: angle,
          start: angle,
          size: fc.double({ min: 0.05, max: 6.2, noNaN: true }),
          isPositive: fc.boolean(),
        }),
        ({ rx, ry, phi, start, size, isPositive }) => {
          const sweep = isPositive ? size : -size;
          // x = cos(phi) rx cos(t) - sin(phi) ry sin(t) + cx, and so on (F.6.3.1).
          const at = (t: number): [number, number] => [
            Math.cos(phi) * rx * Math.cos(t) - Math.sin(phi) * ry * Math.sin(t) + 7,
            Math.sin(phi) * rx * Math.cos(t) + Math.cos(phi) * ry * Math.sin(t) - 3,
          ];
          const [from, to] = [at(start), at(start + sweep)];
          const flags = [size > Math.PI ? 1 : 0, isPositive ? 1 : 0];
          const points = ellipticArc(from, [rx, ry, (phi * 180) / Math.PI, ...flags, ...to], 0.01);
          expect(points.at(-1)).toEqual(to);
          points.forEach((point, i) => {
            const [x, y] = at(start + (sweep * (i + 1)) / points.length);
            expect(Math.hypot(point[0] - x, point[1] - y)).toBeLessThan(1e-6 * Math.max(rx, ry));
          });
        },
      ),
      { seed: 20251125, numRuns: 200 },
    );
  });

  it('lets radii grow that are too small for the chord: half a circle (F.6.6)', () => {
    const points = ellipticArc([0, 0], [1, 1, 0, 0, 1, 10, 0], 0.001);
    for (const [x, y] of points) expect(Math.hypot(x - 5, y)).toBeCloseTo(5, 9);
    expect(Math.min(...points.map(([, y]) => y))).toBeCloseTo(-5, 2);
  });

  it('reads relative and absolute, short and long forms alike', () => {
    const absolute = svgPath(
      'M10 10 L60 10 H90 V40 C90 60 80 70 60 70 S30 60 30 50 Q10 50 10 40 T10 20 Z',
      0.01,
      1,
    );
    const relative = svgPath('m10,10l50,0h30v30c0,20-10,30-30,30s-30-10-30-20q-20,0-20-10t0-20z', 0.01, 1);
    expect(absolute).toHaveLength(1);
    expect(relative[0]!.points.length).toBe(absolute[0]!.points.length);
    relative[0]!.points.forEach(([x, y], i) => {
      expect(Math.hypot(x - absolute[0]!.points[i]![0], y - absolute[0]!.points[i]![1])).toBeLessThan(1e-9);
    });
    // Flags need no space, further pairs of M are lines, points begin numbers.
    const tight = svgPath('M0 0 10 0a5 5 0 0110.5.5', 0.01, 1);
    expect(tight[0]!.points[1]).toEqual([10, 0]);
    expect(tight[0]!.points.at(-1)).toEqual([20.5, 0.5]);
  });

  it('keeps to curves: the area under a cubic and a parabola is exact within the tolerance', () => {
    // Area of a cubic with its chord: 3 (2 (x1 y2 - x2 y1) + ...) / 20 by Green; here by symmetry 0.6 * 80 * 60.
    expect(Math.abs(areaMm2('<path d="M0 0 C0 80 60 80 60 0 Z"/>'))).toBeCloseTo(0.6 * 80 * 60, 0);
    // Archimedes: two thirds of base times height, the height half the handle's.
    expect(Math.abs(areaMm2('<path d="M0 0 Q30 80 60 0 Z"/>'))).toBeCloseTo((2 / 3) * 60 * 40, 0);
  });
});

describe('readPatternSvg', () => {
  it.each([
    ['mm', 'width="300mm" height="300mm" viewBox="0 0 300 300"', 1],
    ['cm', 'width="30cm" height="30cm" viewBox="0 0 300 300"', 1],
    ['inches', 'width="10in" height="10in" viewBox="0 0 254 254"', 1],
    ['twice as large', 'width="600mm" height="600mm" viewBox="0 0 300 300"', 2],
    ['the smaller way of fitting', 'width="900mm" height="300mm" viewBox="0 0 300 300"', 1],
    ['px', 'width="300" height="300"', 25.4 / 96],
    ['px of a view', 'width="600px" height="600px" viewBox="0 0 300 300"', (2 * 25.4) / 96],
  ])('takes the scale from width, height and viewBox: %s', (_, size, scale) => {
    const source = svg(`<rect x="10" y="10" width="100" height="80"/>${GRAIN}`, size);
    const read = readPatternSvg(source);
    expect(read.mmPerUnit).toBeCloseTo(scale, 12);
    expect(1e6 * signedArea(outlineOf(read.panels[0]!))).toBeCloseTo(8000 * scale * scale, 6);
    const isPaper = !/"\d+(px)?"/.test(size.split(' viewBox')[0]!);
    expect(read.findings.map(({ code }) => code)).toEqual(isPaper ? [] : ['pattern/scale-assumed']);
    expect(readPatternSvg(source, { mmPerUnit: 2 }).mmPerUnit).toBe(2);
  });

  it('reads shapes, transforms and groups', () => {
    expect(areaMm2('<polygon points="0,0 100,0 100,50 0,50"/>')).toBeCloseTo(5000, 9);
    expect(areaMm2('<polyline points="0,0 100,0 100,50 0,50 0,0"/>')).toBeCloseTo(5000, 9);
    const circle = Math.PI * 50 ** 2;
    expect(areaMm2('<circle cx="60" cy="60" r="50"/>') / circle).toBeCloseTo(1, 3);
    expect(areaMm2('<ellipse cx="60" cy="60" rx="50" ry="25"/>') / circle).toBeCloseTo(0.5, 3);
    const rounded = 100 * 50 - (4 - Math.PI) * 10 ** 2;
    expect(areaMm2('<rect width="100" height="50" rx="10"/>') / rounded).toBeCloseTo(1, 3);
    const turned = 'translate(100 100) rotate(30) scale(2, 0.5) skewX(20) matrix(1 0 0 1 5 5)';
    expect(areaMm2(`<g transform="${turned}"><rect width="100" height="50"/></g>`)).toBeCloseTo(5000, 6);
    const [panel] = readPatternSvg(
      svg('<rect x="10" y="20" width="100" height="50" transform="rotate(90 60 45)"/>'),
    ).panels;
    const { left, right, bottom, top } = boxOf(outlineOf(panel!));
    // y points up in a panel, down in SVG.
    expect([left, right, bottom, top].map((n) => Math.round(1000 * n))).toEqual([35, 85, -95, 5]);
  });

  it('joins open edges of a group in any order, names them, and takes grain, notch, line and name', () => {
    const read = readPatternSvg(
      svg(`<g id="front" transform="translate(10 10)">
        <path data-name="hem" d="M0 100 L80 100"/><path id="side" d="M80 0.2 L80 100"/>
        <path data-name="waist" d="M80 0 L0 0"/><path data-name="fold &amp; centre" d="M0 100 L0 0"/>
        <line class="notch" x1="80" y1="50" x2="75" y2="50"/>
        <path class="line" data-name="band" d="M0.4 20 L79.5 20"/>
        <path id="grainline" d="M20 90 L30 10"/><path class="arrow" d="M0 0 L5 5 L0 9"/>
        <text x="30" y="30">not <tspan>this</tspan></text>
      </g>
      <g><rect x="150" y="0" width="50" height="50"/><text x="160" y="20">back <tspan x="160" y="30">part</tspan></text></g>
      <g style="display:none"><rect x="0" y="200" width="50" height="50"/></g>
      <defs><rect id="r" width="20" height="20"/></defs><use href="#r"/>`),
    );
    const [front, back] = read.panels;
    expect(front!.name).toBe('front');
    expect(front!.edges.map(({ name }) => name).toSorted()).toEqual(
      ['fold & centre', 'fold & centre 2', 'hem', 'side', 'side 2', 'waist'].toSorted(),
    );
    expect(front!.lines).toHaveLength(1);
    for (const end of [front!.lines![0]!.points[0]!, front!.lines![0]!.points.at(-1)!]) {
      expect(front!.edges.some(({ points }) => points[0] === end)).toBe(true);
    }
    expect(front!.grain).toBeCloseTo(Math.atan2(10, 80), 12);
    expect(read.notches).toHaveLength(1);
    expect(back!.name).toBe('back');
    expect(read.findings.map((finding) => sayFinding(finding))).toEqual([
      '1 copies and pictures were passed over, the first in line 12.',
      '1 gap in the outline of front (line 3), up to 0.20 mm wide, was closed.',
      'back has no grain line; its warp was taken to run up the drawing.',
    ]);
  });

  it('unfolds a half on a line of the class fold', () => {
    const half =
      '<path d="M50 0 L100 10 L100 90 L50 100 Z"/><line class="fold" x1="50" y1="0" x2="50" y2="100"/>';
    const read = readPatternSvg(svg(half));
    expect(1e6 * signedArea(outlineOf(read.panels[0]!))).toBeCloseTo(2 * 4500, 6);
    expect(read.findings.map(({ code }) => code)).toEqual(['pattern/no-grain', 'pattern/unfolded']);
  });

  it('takes outlines once, leaves out cut-outs, and keeps pieces that only overlap', () => {
    expect(codesOf(svg(`${rect(0, 100)}${rect(0, 100)}${GRAIN}`))).toEqual(['pattern/duplicate-dropped']);
    expect(codesOf(svg(`${rect(0, 100)}${rect(60, 20)}${GRAIN}`))).toEqual(['pattern/cut-outs-passed-over']);
    expect(readPatternSvg(svg(`${rect(0, 100)}${rect(60, 100)}`)).panels).toHaveLength(2);
    expect(codesOf(svg('<circle cx="60" cy="60" r="50"/>'))).toContain('pattern/no-corners');
  });

  it.each([
    ['text', 'no drawing', 'pattern/not-svg', 1],
    ['another drawing', '<html/>', 'pattern/not-svg', 1],
    ['an element left open', '<svg>\n<g>', 'pattern/unfinished', 2],
    ['an element closed twice', '<svg>\n<g></g></g></svg>', 'pattern/not-svg', 2],
    ['a second drawing', '<svg></svg>\n<svg/>', 'pattern/not-svg', 2],
    ['a tag cut off', '<svg>\n<path d="M0 0', 'pattern/unfinished', 2],
    ['a path without M', svg('<path d="L1 1"/>'), 'pattern/bad-path', 2],
    ['a path with a word', svg('\n<path d="M0 0 L10 ten"/>'), 'pattern/bad-path', 3],
    ['a flag of 2', svg('<path d="M0 0 A5 5 0 2 1 9 9"/>'), 'pattern/bad-path', 2],
    ['half a point', svg('<polygon points="0,0 1,1 2"/>'), 'pattern/bad-path', 2],
    ['a turn that is none', svg('<g transform="turn(3)"/>'), 'pattern/bad-transform', 2],
    ['a width of none', svg('<rect width="wide" height="5"/>'), 'pattern/bad-number', 2],
    ['an open outline', svg('<path d="M0 0 L90 0 L90 90 L0 90 L0 2"/>'), 'pattern/outline-open', 2],
    ['an eight', svg('<path d="M0 0 L90 90 L90 0 L0 80 Z"/>'), 'pattern/outline-crosses', 2],
    ['nothing', svg(''), 'pattern/no-outline', null],
  ])('refuses %s with its line', (_, source, code, line) => {
    const fault = faultOf(() => readPatternSvg(source));
    expect(fault.code).toBe(code);
    expect((fault.facts as { line?: number }).line ?? null).toBe(line);
    expect(sayFault(fault).what).not.toMatch(/undefined|NaN|null/);
  });

  it('names the place where an outline crosses itself: the middle of a bow tie', () => {
    const fault = faultOf(() => readPatternSvg(svg('<path d="M0 0 L80 80 L80 0 L0 80 Z"/>')));
    expect(fault.facts).toMatchObject({ xMm: expect.closeTo(40, 9), yMm: expect.closeTo(-40, 9) });
  });
});

const names = (edges: readonly { name: string }[]) => edges.map(({ name }) => name).toSorted();

const key = ({
  one,
  other,
}: {
  one: { panel: string; edge: string };
  other: { panel: string; edge: string };
}) => [`${one.panel} ${one.edge}`, `${other.panel} ${other.edge}`].toSorted().join(' - ');

describe('a pattern written as SVG', () => {
  it('comes back with its areas, lengths, edges and names', () => {
    for (const pattern of [halfShort, foldedYoke]) {
      const read = readPatternSvg(writePatternSvg(pattern, 'M'));
      expect(read.findings).toEqual([]);
      expect(read.name).toBe(pattern.name);
      expectSamePanels(read, pattern);
      const whole = wholePattern(pattern);
      read.panels.forEach((panel, p) => {
        expect(names(panel.edges)).toEqual(names(whole.panels[p]!.edges));
        for (const { name, points } of panel.edges) {
          const own = whole.panels[p]!.edges.find((edge) => edge.name === name)!;
          expect(Math.abs(curveLength(points) - curveLength(own.points))).toBeLessThan(1e-6);
        }
      });
    }
  });

  it('is sewn again by its names', () => {
    const read = readPatternSvg(writePatternSvg(halfShort));
    const sure = proposeSeams(read).filter(({ sureness }) => sureness === 'sure');
    expect(sure.map(({ seam }) => key(seam)).toSorted()).toEqual(
      wholePattern(halfShort).seams.map(key).toSorted(),
    );
    for (const { ease } of sure) expect(Math.abs(ease.difference)).toBeLessThan(1e-5);
  });

  it('keeps names that XML could not hold as they are', () => {
    const odd = {
      ...foldedYoke,
      name: '<a> & "b"',
      panels: [{ ...foldedYoke.panels[0]!, name: '<yoke> & "co" \u0007é' }],
    };
    const read = readPatternSvg(writePatternSvg({ ...odd, centre: [] }));
    expect(read.name).toBe('<a> & "b"');
    expect(read.panels[0]!.name).toBe('<yoke> & "co" é');
  });
});
