/**
 * The closest point of a triangle to a point, as weights of its corners; degenerate triangles too.
 *
 * @param positions - 3 per vertex; a, b, c are offsets of the corners in it.
 * @param into - 3 weights, overwritten: none negative, sum 1.
 * @returns Squared distance, m^2.
 * @see Ericson, Real-Time Collision Detection (2005), section 5.1.5: the Voronoi regions of the corners, the sides, the inside.
 */
/* oxlint-disable max-params, complexity -- innermost kernel: seven plain numbers in, no object made; the seven regions are the method */
export function closestOnTriangle(
  positions: Float64Array,
  a: number,
  b: number,
  c: number,
  x: number,
  y: number,
  z: number,
  into: Float64Array,
): number {
  const ax = positions[a]!;
  const ay = positions[a + 1]!;
  const az = positions[a + 2]!;
  const ux = positions[b]! - ax;
  const uy = positions[b + 1]! - ay;
  const uz = positions[b + 2]! - az;
  const vx = positions[c]! - ax;
  const vy = positions[c + 1]! - ay;
  const vz = positions[c + 2]! - az;
  const px = x - ax;
  const py = y - ay;
  const pz = z - az;
  const uu = ux * ux + uy * uy + uz * uz;
  const uv = ux * vx + uy * vy + uz * vz;
  const vv = vx * vx + vy * vy + vz * vz;
  const d1 = ux * px + uy * py + uz * pz;
  const d2 = vx * px + vy * py + vz * pz;
  const d3 = d1 - uu;
  const d4 = d2 - uv;
  const d5 = d1 - uv;
  const d6 = d2 - vv;
  const overC = d1 * d4 - d3 * d2;
  const overB = d5 * d2 - d1 * d6;
  const overA = d3 * d6 - d5 * d4;
  let toB = 0;
  let toC = 0;
  if (d1 <= 0 && d2 <= 0) toB = 0;
  else if (d3 >= 0 && d4 <= d3) toB = 1;
  else if (d6 >= 0 && d5 <= d6) toC = 1;
  else if (overC <= 0 && d1 >= 0 && d3 <= 0) toB = d1 / (d1 - d3);
  else if (overB <= 0 && d2 >= 0 && d6 <= 0) toC = d2 / (d2 - d6);
  else if (overA <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) {
    toC = (d4 - d3) / (d4 - d3 + (d5 - d6));
    toB = 1 - toC;
  } else {
    const sum = overA + overB + overC;
    toB = overB / sum;
    toC = overC / sum;
  }
  into[0] = 1 - toB - toC;
  into[1] = toB;
  into[2] = toC;
  const rx = px - toB * ux - toC * vx;
  const ry = py - toB * uy - toC * vy;
  const rz = pz - toB * uz - toC * vz;
  return rx * rx + ry * ry + rz * rz;
}
