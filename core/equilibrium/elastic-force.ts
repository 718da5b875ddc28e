import { forceCurve, readForce, type ForceCurve, type ForceReading } from '../garment/force-curve.ts';
import type { SewnElastic } from '../garment/garment.ts';
import { blockAt, type BlockMatrix, type BlockPattern } from './block-matrix.ts';
import type { Force } from './force.ts';

/**
 * Elastic, seam or drawcord sewn along edges of the cloth: each segment pulls its two ends together.
 *
 * E = sum over segments of share l0 A(e), with e = l / l0 - 1 and A the area under the measured force curve F(e);
 * dE/dx1 = share F t, d2E/dx1dx1 = share (F' / l0 t t' + F / l (I - t t')), t = (x1 - x0) / l.
 *
 * Round a limb of radius R the rows of a band share F and each presses on its own strip, so that the whole presses
 * F / (w R) over its width w. A slack segment carries nothing.
 */
export function elasticForce(elastic: SewnElastic): Force {
  const { segments, restLength, share } = elastic;
  const curve = forceCurve(elastic.curve);
  const reading: ForceReading = { force: 0, slope: 0, area: 0 };
  let blocks: { readonly of: BlockPattern; readonly at: Uint32Array } | null = null;
  return {
    addGradient: (positions, gradient) => {
      let energy = 0;
      for (let s = 0; s < share.length; s++) {
        const a = 3 * segments[2 * s]!;
        const b = 3 * segments[2 * s + 1]!;
        const length = segmentLength(positions, a, b);
        readForce(curve, length / restLength[s]! - 1, reading);
        energy += share[s]! * restLength[s]! * reading.area;
        const pull = length > 0 ? (share[s]! * reading.force) / length : 0;
        for (let k = 0; k < 3; k++) {
          const along = pull * (positions[b + k]! - positions[a + k]!);
          gradient[a + k]! -= along;
          gradient[b + k]! += along;
        }
      }
      return energy;
    },
    addStiffness: (positions, exact, into) => {
      if (blocks?.of !== into.pattern) {
        blocks = { of: into.pattern, at: segmentBlocks(into.pattern, segments) };
      }
      addSegments({ elastic, curve, reading, blocks: blocks.at }, positions, exact, into);
    },
  };
}

interface Assembly {
  readonly elastic: SewnElastic;
  readonly curve: ForceCurve;
  readonly reading: ForceReading;
  readonly blocks: Uint32Array;
}

/** `exact` false leaves out the sideways part of a slack segment, which alone is negative. */
function addSegments(
  { elastic: { segments, restLength, share }, curve, reading, blocks }: Assembly,
  positions: Float64Array,
  exact: boolean,
  { values }: BlockMatrix,
): void {
  const tangent = new Float64Array(3);
  for (let s = 0; s < share.length; s++) {
    const a = 3 * segments[2 * s]!;
    const b = 3 * segments[2 * s + 1]!;
    const length = segmentLength(positions, a, b);
    if (length === 0) continue;
    readForce(curve, length / restLength[s]! - 1, reading);
    for (let k = 0; k < 3; k++) tangent[k] = (positions[b + k]! - positions[a + k]!) / length;
    const lengthwise = (share[s]! * reading.slope) / restLength[s]!;
    const sideways = (share[s]! * (exact ? reading.force : Math.max(0, reading.force))) / length;
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        const tt = tangent[i]! * tangent[j]!;
        const k = lengthwise * tt + sideways * ((i === j ? 1 : 0) - tt);
        const entry = 3 * i + j;
        values[9 * blocks[4 * s]! + entry]! += k;
        values[9 * blocks[4 * s + 1]! + entry]! -= k;
        values[9 * blocks[4 * s + 2]! + entry]! -= k;
        values[9 * blocks[4 * s + 3]! + entry]! += k;
      }
    }
  }
}

/** Blocks (a, a), (a, b), (b, a), (b, b) of each segment; 4*S. */
function segmentBlocks(pattern: BlockPattern, segments: Uint32Array): Uint32Array {
  const blocks = new Uint32Array(2 * segments.length);
  for (let s = 0; 2 * s < segments.length; s++) {
    for (let m = 0; m < 2; m++) {
      for (let n = 0; n < 2; n++) {
        blocks[4 * s + 2 * m + n] = blockAt(pattern, segments[2 * s + m]!, segments[2 * s + n]!);
      }
    }
  }
  return blocks;
}

const segmentLength = (positions: Float64Array, a: number, b: number): number =>
  Math.hypot(
    positions[b]! - positions[a]!,
    positions[b + 1]! - positions[a + 1]!,
    positions[b + 2]! - positions[a + 2]!,
  );
