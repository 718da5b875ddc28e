import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { netField } from './net-field.ts';

type Place = readonly [number, number, number];

/** A limb of round section that tapers from one radius to another, with round ends; mm. */
export interface Taper {
  readonly from: Place;
  readonly to: Place;
  readonly radii: readonly [number, number];
}

/**
 * Distance to a taper.
 *
 * In the half plane through the axis it is the distance to the common tangent of two circles, or to a circle beyond it:
 * sin a = (r1 - r2) / L.
 */
function distanceTo({ from, to, radii: [r1, r2] }: Taper): (x: number, y: number, z: number) => number {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]);
  const [ux, uy, uz] = [0, 1, 2].map((k) => (to[k]! - from[k]!) / length) as [number, number, number];
  const [fx, fy, fz] = from;
  const sine = (r1 - r2) / length;
  const cosine = Math.sqrt(1 - sine * sine);
  return (x, y, z) => {
    const [dx, dy, dz] = [x - fx, y - fy, z - fz];
    const along = dx * ux + dy * uy + dz * uz;
    const beside = Math.sqrt(Math.max(0, dx * dx + dy * dy + dz * dz - along * along));
    const foot = along - (beside * sine) / cosine;
    if (foot <= 0) return Math.sqrt(along * along + beside * beside) - r1;
    if (foot >= length) return Math.sqrt((along - length) ** 2 + beside * beside) - r2;
    return beside * cosine + along * sine - r1;
  };
}

/** Girth of a taper cut square to its axis, between its ends: 2 pi (r1 - sin a s) / cos a, s from its start; mm. */
export function taperGirth({ from, to, radii: [r1, r2] }: Taper, place: Place): number {
  const way = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  const length = Math.hypot(...way);
  const along = way.reduce((sum, value, k) => sum + value * (place[k]! - from[k]!), 0) / length;
  const sine = (r1 - r2) / length;
  return (2 * Math.PI * (r1 - sine * along)) / Math.sqrt(1 - sine * sine);
}

/** The left arm, from the shoulder: upper arm, forearm, hand; hanging `degrees` from the vertical. mm. */
export function armTapers(degrees: number): readonly [upper: Taper, fore: Taper, lower: Taper, hand: Taper] {
  const [sine, cosine] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
  const at = (s: number): Place => [185 + sine * s, 1370 - cosine * s, -10];
  return [
    { from: at(0), to: at(290), radii: [52, 36] },
    { from: at(290), to: at(350), radii: [36, 41] },
    { from: at(350), to: at(545), radii: [41, 25] },
    { from: at(545), to: at(660), radii: [25, 38] },
  ];
}

/** The left leg, downwards: thigh, knee, calf, ankle; mm. */
export const LEG_TAPERS: readonly Taper[] = [
  { from: [95, 800, 0], to: [95, 480, 0], radii: [88, 54] },
  { from: [95, 480, 0], to: [95, 430, -6], radii: [54, 50] },
  { from: [95, 430, -6], to: [95, 340, -16], radii: [50, 58] },
  { from: [95, 340, -16], to: [95, 110, -20], radii: [58, 35] },
  { from: [95, 110, -20], to: [95, 50, -20], radii: [35, 42] },
  { from: [95, 45, -25], to: [100, 38, 120], radii: [42, 32] },
];

/** Trunk, neck and head; the trunk is 0.7 as deep as wide. mm. */
const TRUNK: readonly Taper[] = [
  { from: [0, 900, 0], to: [0, 1060, 0], radii: [172, 128] },
  { from: [0, 1060, 0], to: [0, 1270, 0], radii: [128, 158] },
  { from: [0, 1270, 0], to: [0, 1350, 0], radii: [158, 120] },
];
export const NECK: readonly Taper[] = [
  { from: [0, 1380, -5], to: [0, 1490, 5], radii: [70, 54] },
  { from: [0, 1490, 5], to: [0, 1540, 10], radii: [54, 66] },
  { from: [0, 1580, 12], to: [0, 1640, 12], radii: [85, 78] },
];
const DEPTH = 0.7;

/** Where limbs meet the trunk they are rounded over this length, mm; a plain union would leave creases. */
const ROUNDING = 24;

/**
 * A whole person of tapers: head, hands, feet, arms in any pose. Invented; its girths are closed forms wherever one
 * taper is alone.
 *
 * @param degrees - Of the arms from the vertical: 90 is a T.
 * @param spacing - mm.
 */
export function capsulePerson(degrees: number, spacing: number): TriangleMesh {
  const limbs = [armTapers(degrees), LEG_TAPERS, NECK].map((tapers) => tapers.map(distanceTo));
  const trunkTapers = TRUNK.map(distanceTo);
  const field = (x: number, y: number, z: number): number => {
    const side = Math.abs(x);
    let all = Infinity;
    for (const distance of trunkTapers) all = Math.min(all, DEPTH * distance(side, y, z / DEPTH));
    for (const limb of limbs) {
      let nearest = Infinity;
      for (const distance of limb) nearest = Math.min(nearest, distance(side, y, z));
      all = rounded(all, nearest);
    }
    return all;
  };
  // The tips of the hands reach farthest, 660 mm from the shoulder.
  const width = 185 + Math.sin((degrees * Math.PI) / 180) * 660 + 70;
  const { positions, triangles } = netField(field, {
    low: [-width, -20.5, -160.5],
    high: [width, 1740.5, 180.5],
    spacing,
  });
  return { positions: positions.map((value) => value / 1000), triangles };
}

/** The smaller of two, eased where they are nearly alike. */
function rounded(one: number, other: number): number {
  const near = Math.max(ROUNDING - Math.abs(one - other), 0) / ROUNDING;
  return Math.min(one, other) - (near ** 3 * ROUNDING) / 6;
}
