import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '../../../core/fault/fault.ts';
import { readObj } from '../../../core/io/read-obj.ts';
import { splitFace } from '../../../core/io/split-face.ts';
import { writeObj } from '../../../core/io/write-obj.ts';
import { triangleAreaVectors } from '../../../core/mesh/triangle-areas.ts';
import { bodyFaultWords } from '../../../core/words/body-words.ts';
import { cylinder, seededRandom } from '../../help/shapes.ts';
import { faultOf as faultIn } from '../../help/fault-of.ts';

const SQUARE = 'v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\n';

const faultOf = (text: string): Fault => faultIn(() => readObj(text));

/** Sum of the area vectors along z. */
const areaOf = (positions: Float64Array, triangles: ArrayLike<number>): number =>
  triangleAreaVectors({ positions, triangles: Uint32Array.from(triangles) }).reduce(
    (sum, value, i) => sum + (i % 3 === 2 ? value : 0),
    0,
  );

describe('readObj', () => {
  it('reads what it wrote, to the tenth of a micrometre, in mm', () => {
    const mesh = cylinder(0.07, 0.2, 0.02, { jitter: 0.3, seed: 4 });
    const read = readObj(writeObj(mesh, ['an invented body', 'second\nline \\']));
    expect(read.triangles).toEqual(mesh.triangles);
    read.positions.forEach((value, i) => {
      expect(Math.abs(value - 1000 * mesh.positions[i]!)).toBeLessThanOrEqual(0.5001e-4);
    });
  });

  it('takes negative indices, texture and normal numbers, groups, comments, CRLF, continued lines, colours', () => {
    const text =
      '# made up\r\nmtllib a.mtl\r\no thing\r\nv 0 0 0 1\r\nv 1 0 0 0.5 0.5 0.5\r\nv 1 1 \\\r\n 0\r\nv 0 1 0 # last\r\n' +
      'vt 0 0\r\nvn 0 0 1\r\ng front\r\nusemtl m\r\ns off\r\nf 1/1/1 2//1 \\\r\n3/1\r\nf -4 -2 -1\r\nl 1 2\r\n';
    const { positions, triangles } = readObj(text);
    expect([...positions]).toEqual([0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0]);
    expect([...triangles]).toEqual([0, 1, 2, 0, 2, 3]);
  });

  it('takes faces that stand before their vertices', () => {
    expect([...readObj(`f 1 2 3\n${SQUARE}`).triangles]).toEqual([0, 1, 2]);
  });

  it('splits a hollow face without leaving it: an L of six corners keeps its area 3', () => {
    const corners = [0, 0, 2, 0, 2, 1, 1, 1, 1, 2, 0, 2];
    for (let turn = 0; turn < 6; turn++) {
      const lines = Array.from({ length: 6 }, (_, i) => {
        const j = (i + turn) % 6;
        return `v ${corners[2 * j]} ${corners[2 * j + 1]} 0`;
      });
      const { positions, triangles } = readObj(`${lines.join('\n')}\nf 1 2 3 4 5 6`);
      expect(triangles).toHaveLength(12);
      const areas = triangleAreaVectors({ positions, triangles }).filter((_, i) => i % 3 === 2);
      // All of them turn the same way and together fill the face: none lies outside.
      expect(Math.min(...areas)).toBeGreaterThan(0);
      expect(areas.reduce((sum, area) => sum + area, 0)).toBeCloseTo(3, 12);
    }
  });

  it('splits star-shaped faces of 4 to 40 corners into n - 2 triangles of the same total area (shoelace)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 4, max: 40 }), fc.integer(), (count, seed) => {
        const random = seededRandom(seed);
        const positions = new Float64Array(3 * count);
        for (let i = 0; i < count; i++) {
          const radius = 0.2 + random();
          const angle = (2 * Math.PI * (i + 0.8 * random())) / count;
          positions.set([radius * Math.cos(angle), radius * Math.sin(angle), 0], 3 * i);
        }
        const corners = Array.from({ length: count }, (_, i) => i);
        const into: number[] = [];
        splitFace(corners, positions, into);
        expect(into).toHaveLength(3 * (count - 2));
        const shoelace = corners.reduce((sum, i) => {
          const j = (i + 1) % count;
          return (
            sum + (positions[3 * i]! * positions[3 * j + 1]! - positions[3 * j]! * positions[3 * i + 1]!) / 2
          );
        }, 0);
        expect(areaOf(positions, into)).toBeCloseTo(shoelace, 9);
        const parts = triangleAreaVectors({ positions, triangles: Uint32Array.from(into) });
        expect(Math.min(...parts.filter((_, i) => i % 3 === 2))).toBeGreaterThan(-1e-9);
      }),
      { seed: 21, numRuns: 200 },
    );
  });

  it.each([
    ['a decimal comma', 'v 0,5 0 0\n', 'mesh/decimal-comma', { line: 1, value: '0,5' }],
    ['nan', `${SQUARE}v 0 nan 0\n`, 'mesh/not-finite', { vertex: 5, line: 5, value: 'nan' }],
    ['a Windows nan', 'v 0 -1.#IND 0\n', 'mesh/not-finite', { vertex: 1, line: 1, value: '-1.#IND' }],
    ['more than a double holds', 'v 1e999 0 0\n', 'mesh/not-finite', { vertex: 1, line: 1, value: '1e999' }],
    ['two coordinates', '\n\nv 1 2\n', 'mesh/unreadable-line', { line: 3, text: 'v 1 2' }],
    ['a word', 'v 1 2 three\n', 'mesh/unreadable-line', { line: 1, text: 'v 1 2 three' }],
    ['hexadecimal', 'v 0x10 2 3\n', 'mesh/unreadable-line', { line: 1 }],
    ['index 0', `${SQUARE}f 0 1 2\n`, 'mesh/bad-index', { line: 5, value: '0', vertexCount: 4 }],
    ['an index too high', `${SQUARE}f 1 2 9\n`, 'mesh/bad-index', { line: 5, value: '9', vertexCount: 4 }],
    ['an index too low', `${SQUARE}f -1 -2 -5\n`, 'mesh/bad-index', { line: 5, value: '-5', vertexCount: 4 }],
    ['a broken index', `${SQUARE}f 1 2 3.5\n`, 'mesh/unreadable-line', { line: 5, text: 'f 1 2 3.5' }],
    ['two corners', `${SQUARE}f 1 2\n`, 'mesh/unreadable-line', { line: 5 }],
    ['points only', SQUARE, 'mesh/no-triangles', { vertexCount: 4 }],
    ['nothing', '', 'mesh/no-triangles', { vertexCount: 0 }],
  ])('refuses %s with line and value', (_, text, code, facts) => {
    const fault = faultOf(text);
    expect(fault.code).toBe(code);
    expect(fault.facts).toMatchObject(facts);
    const said = bodyFaultWords[fault.code as 'mesh/open'](fault.facts as never);
    expect(said.what.length).toBeGreaterThan(20);
    expect(said.remedy.length).toBeGreaterThan(20);
    if ('line' in facts) expect(said.what).toContain(`ine ${facts.line}`);
  });

  it('refuses a face of more than 1000 corners', () => {
    expect(faultOf(`${SQUARE}f ${'1 2 3 '.repeat(400)}`).facts).toMatchObject({ found: 1200, limit: 1000 });
  });

  it('never falls over and never lets a bad number or index through (300 mutated files, seed 5)', () => {
    const sound = writeObj(cylinder(0.05, 0.06, 0.04)).replaceAll('f 1 ', 'f -1 ');
    const pieces = [
      'nan',
      ',',
      '-',
      '\\\n',
      '\r',
      '\0',
      '1e309',
      '/',
      '//',
      ' ',
      '\n',
      'f 1 2 3 4 5',
      'v',
      '#',
      '９',
      '0',
    ];
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            at: fc.nat(sound.length - 1),
            cut: fc.nat(12),
            put: fc.oneof(fc.constantFrom(...pieces), fc.string({ maxLength: 5 })),
          }),
          { minLength: 1, maxLength: 6 },
        ),
        (changes) => {
          const text = changes.reduce(
            (so, { at, cut, put }) => so.slice(0, at) + put + so.slice(at + cut),
            sound,
          );
          try {
            const { positions, triangles } = readObj(text);
            expect(positions.every(Number.isFinite)).toBe(true);
            expect(triangles.every((v) => v < positions.length / 3)).toBe(true);
            expect(triangles.length % 3).toBe(0);
          } catch (error) {
            if (!(error instanceof Fault)) throw error;
          }
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });
});
