import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { Triple } from '../mesh/triple.ts';
import {
  BODY_PARTS,
  BODY_REGIONS,
  type BodyPart,
  type BodyRegion,
  type BodyRegions,
} from './body-regions.ts';
import { armPieceVertices } from './landmark-arms.ts';
import type { Landmark, Landmarks } from './landmarks.ts';
import { dot, frameOf, intoFrame, meshInFrame } from './tape-frame.ts';

/** Heights and points that bound the regions, in a frame in which the wearer faces +z. */
export interface RegionBounds {
  readonly neck: number;
  readonly armpit: number;
  readonly ribs: number;
  readonly waist: number;
  readonly topHip: number;
  readonly hip: number;
  readonly crotch: Readonly<Triple>;
  /** Middle of the trunk from front to back, at the waist. */
  readonly middleZ: number;
  readonly hasBreast: boolean;
  readonly left: LimbBounds;
  readonly right: LimbBounds;
  /** Height of the waist over that of the fit body of 1680 mm. */
  readonly scale: number;
}

interface LimbBounds {
  readonly knee: number;
  readonly ankle: number;
  /** Shoulder, elbow, wrist; null without an arm. */
  readonly arm: readonly [Readonly<Triple>, Readonly<Triple>, Readonly<Triple>] | null;
}

/** The fit body's waist, m: lengths below are set by hand on it. */
const FIT_WAIST = 1.045;

/**
 * Part and region of every vertex, from the landmarks: the trunk by height and by the direction from its middle, legs
 * and arms by the place along them. Borders are set by hand, as fitters speak of them (common practice).
 *
 * @param body.forward - Level unit vector from back to front.
 * @returns null where trunk and crotch are not known.
 */
export function regionsOf(
  skin: TriangleMesh,
  body: { readonly landmarks: Landmarks; readonly forward: Readonly<Triple>; readonly floor: number },
): BodyRegions | null {
  const frame = frameOf([0, 1, 0], body.forward);
  const bounds = boundsOf(body.landmarks, (point) => intoFrame(frame, point), body.floor);
  if (bounds === null) return null;
  const mesh = meshInFrame(frame, skin);
  const { positions } = mesh;
  const vertexCount = positions.length / 3;
  const armOf = armsOf(mesh, bounds, body.landmarks, (point) => intoFrame(frame, point));
  const part = new Uint8Array(vertexCount);
  const region = new Uint8Array(vertexCount);
  for (let v = 0; v < vertexCount; v++) {
    const point: Triple = [positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!];
    const [ownPart, ownRegion] = placeOf(point, armOf[v]!, bounds);
    part[v] = BODY_PARTS.indexOf(ownPart);
    region[v] = BODY_REGIONS.indexOf(ownRegion);
  }
  return { part, region };
}

type IntoFrame = (point: Readonly<Triple>) => Triple;

function boundsOf(landmarks: Landmarks, into: IntoFrame, floor: number): RegionBounds | null {
  const { crotch, waistFront, waistBack, hipFront, topHipFront } = landmarks;
  if (!crotch || !waistFront || !waistBack || !hipFront || !topHipFront) return null;
  const scale = (waistFront.point[1] - floor) / FIT_WAIST;
  const ribs = levelOf(landmarks.underbustFront) ?? waistFront.point[1] + 0.075 * scale;
  const chest = levelOf(landmarks.bustFront ?? landmarks.chestFront) ?? ribs;
  const limb = (side: 'Left' | 'Right'): LimbBounds => ({
    knee: levelOf(landmarks[`knee${side}`]) ?? crotch.point[1] - 0.295 * scale,
    ankle: levelOf(landmarks[`ankle${side}`]) ?? floor + 0.12 * scale,
    arm: armAxis(landmarks, side, into),
  });
  return {
    neck: levelOf(landmarks.neckFront) ?? Infinity,
    armpit: levelOf(landmarks.armpitLeft ?? landmarks.armpitRight) ?? chest + 0.03 * scale,
    ribs,
    waist: waistFront.point[1],
    topHip: topHipFront.point[1],
    hip: hipFront.point[1],
    crotch: into(crotch.point),
    middleZ: 0.5 * (into(waistFront.point)[2] + into(waistBack.point)[2]),
    hasBreast: landmarks.bustFront !== undefined,
    left: limb('Left'),
    right: limb('Right'),
    scale,
  };
}

const levelOf = (landmark: Landmark | undefined): number | undefined => landmark?.point[1];

function armAxis(landmarks: Landmarks, side: 'Left' | 'Right', into: IntoFrame): LimbBounds['arm'] {
  const [shoulder, elbow, wrist] = (['shoulder', 'elbow', 'wrist'] as const).map(
    (name) => landmarks[`${name}${side}`]?.point,
  );
  return shoulder && elbow && wrist ? [into(shoulder), into(elbow), into(wrist)] : null;
}

/** 1 on the left arm, -1 on the right, 0 elsewhere; V. */
function armsOf(mesh: TriangleMesh, bounds: RegionBounds, landmarks: Landmarks, into: IntoFrame): Int8Array {
  const armOf = new Int8Array(mesh.positions.length / 3);
  for (const [side, sign] of [
    ['Left', 1],
    ['Right', -1],
  ] as const) {
    const armpit = landmarks[`armpit${side}`]?.point;
    const { arm } = sign > 0 ? bounds.left : bounds.right;
    if (armpit === undefined || arm === null) continue;
    for (const v of armPieceVertices(mesh, into(armpit), sign)) armOf[v] = sign;
  }
  return armOf;
}

function placeOf(point: Readonly<Triple>, arm: number, bounds: RegionBounds): [BodyPart, BodyRegion] {
  const [x, y] = point;
  if (arm !== 0) {
    const { arm: axis } = arm > 0 ? bounds.left : bounds.right;
    return [arm > 0 ? 'leftArm' : 'rightArm', armRegion(point, axis!, bounds.scale)];
  }
  if (y < bounds.crotch[1]) {
    const isLeft = x >= bounds.crotch[0];
    return [isLeft ? 'leftLeg' : 'rightLeg', legRegion(point, isLeft ? bounds.left : bounds.right, bounds)];
  }
  if (y > bounds.neck + 0.05 * bounds.scale) return ['head', 'head'];
  return ['trunk', trunkRegion(point, bounds)];
}

function armRegion(
  point: Readonly<Triple>,
  [shoulder, elbow, wrist]: NonNullable<LimbBounds['arm']>,
  scale: number,
): BodyRegion {
  const along = (from: Readonly<Triple>, to: Readonly<Triple>): number => {
    const way: Triple = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
    const off: Triple = [point[0] - from[0], point[1] - from[1], point[2] - from[2]];
    return dot(way, off) / Math.hypot(...way);
  };
  if (along(elbow, wrist) > 0.045 * scale) {
    return along(wrist, elbow) < 0.035 * scale ? 'wrist' : 'forearm';
  }
  if (along(elbow, shoulder) < 0.045 * scale) return 'elbow';
  return along(shoulder, elbow) < 0.03 * scale ? 'shoulder' : 'upperArm';
}

function legRegion([, y, z]: Readonly<Triple>, leg: LimbBounds, bounds: RegionBounds): BodyRegion {
  const { crotch, scale } = bounds;
  if (y > crotch[1] - 0.06 * scale && z < crotch[2] - 0.03 * scale) return 'underSeat';
  if (y > leg.knee + 0.06 * scale) return 'thigh';
  if (y > leg.knee - 0.06 * scale) return 'knee';
  return y > leg.ankle + 0.05 * scale ? 'calf' : 'ankle';
}

/** Front, breast and back reach so far round from the middle, rad: the rest is the side. */
const FRONT = (60 * Math.PI) / 180;
const BREAST = (77 * Math.PI) / 180;
const BACK = (115 * Math.PI) / 180;

function trunkRegion([x, y, z]: Readonly<Triple>, bounds: RegionBounds): BodyRegion {
  const { crotch, scale, armpit, ribs, hasBreast } = bounds;
  const across = Math.abs(x - crotch[0]);
  const angle = Math.atan2(across, z - bounds.middleZ);
  if (y > armpit) return aboveArmpit(angle, y, bounds);
  if (y < crotch[1] + 0.05 * scale && across < 0.05 * scale) return 'crotch';
  if (angle > BACK) return backRegion(y, bounds);
  const front = hasBreast && y > ribs ? BREAST : FRONT;
  if (angle > front) return 'side';
  if (y > ribs + 0.02 * scale) return 'bust';
  return y > ribs - 0.04 * scale ? 'underBust' : 'belly';
}

function backRegion(y: number, { ribs, topHip, crotch, scale }: RegionBounds): BodyRegion {
  if (y > ribs) return 'upperBack';
  if (y > topHip) return 'lumbar';
  return y < crotch[1] + 0.03 * scale ? 'underSeat' : 'seat';
}

function aboveArmpit(angle: number, y: number, { neck, armpit }: RegionBounds): BodyRegion {
  if (Number.isFinite(neck) && y > armpit + 0.75 * (neck - armpit)) return 'neck';
  if (angle > BACK) return 'upperBack';
  return angle < FRONT && y < armpit + 0.25 * (neck - armpit) ? 'bust' : 'shoulder';
}
