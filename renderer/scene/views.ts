import { Box3, Spherical, Vector3 } from 'three';
import type { ViewName } from '../../core/words/stage-words.ts';
import type { Framing } from '../store/view-store.ts';

/** Where the camera stands about its target: distance (m), polar angle from straight up, azimuth from the front (rad). */
export interface Stand {
  readonly distance: number;
  readonly polar: number;
  readonly azimuth: number;
}

/** A narrow lens: hardly any perspective, as a pattern drawing has none. Degrees, vertical. */
export const LENS = 16;

const LEVEL = Math.PI / 2;

/** Azimuths from the front towards the wearer's left; the three-quarter view looks slightly down. */
const DIRECTIONS: Readonly<Record<ViewName, { readonly azimuth: number; readonly polar: number }>> = {
  front: { azimuth: 0, polar: LEVEL },
  back: { azimuth: Math.PI, polar: LEVEL },
  left: { azimuth: Math.PI / 2, polar: LEVEL },
  right: { azimuth: -Math.PI / 2, polar: LEVEL },
  threeQuarter: { azimuth: Math.PI / 5.5, polar: LEVEL - 0.14 },
};

export const directionOf = (view: ViewName): Pick<Stand, 'polar' | 'azimuth'> => DIRECTIONS[view];

/** What the camera frames: a point to look at and the height and width that must be in sight, m. */
export interface Frame {
  readonly target: Vector3;
  readonly height: number;
  readonly width: number;
}

/** The garment large with some body above and below it, or the whole form. */
export function frameOf(framing: Framing, cloth: Box3, skin: Box3): Frame {
  const clothSize = cloth.getSize(new Vector3());
  const skinSize = skin.getSize(new Vector3());
  if (framing === 'form') {
    const target = skin.getCenter(new Vector3());
    return { target, height: skinSize.y * 1.12, width: Math.min(skinSize.x, skinSize.y) * 1.05 };
  }
  return {
    target: cloth.getCenter(new Vector3()),
    height: Math.min(skinSize.y * 1.12, clothSize.y * 1.6),
    width: Math.hypot(clothSize.x, clothSize.z) * 1.06,
  };
}

/** The part of the stage that no paper covers, px from its left and upper edge. */
export interface FreeRoom {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * What words and paper take from the stage's edges, px: left edge or an open leaf, legend, views under the form. The
 * stage's mask in styles/stage.css runs out within these, never over framed cloth.
 */
const TAKEN = { edge: 130, leaf: 396, legend: 330, top: 28, bottom: 108 } as const;

/** The room that is left for the form on a stage of the given size. */
export const freeRoom = (width: number, height: number, isLeafOpen: boolean): FreeRoom => ({
  left: isLeafOpen ? TAKEN.leaf : TAKEN.edge,
  right: Math.max(width - TAKEN.legend, TAKEN.leaf + 1),
  top: TAKEN.top,
  bottom: height - TAKEN.bottom,
});

/** Distance from which a frame just fits the free room of a stage of the given height (px). */
export function distanceFor({ height, width }: Frame, room: FreeRoom, stageHeight: number): number {
  const half = Math.tan((LENS * Math.PI) / 360);
  const metresPerPixel = Math.max(height / (room.bottom - room.top), width / (room.right - room.left));
  return (metresPerPixel * stageHeight) / (2 * half);
}

/** Camera position for a stand about a target. */
export function positionOf(stand: Stand, target: Vector3): Vector3 {
  return new Vector3()
    .setFromSpherical(new Spherical(stand.distance, stand.polar, stand.azimuth))
    .add(target);
}

/** The stand of a camera that is somewhere. */
export function standOf(position: Vector3, target: Vector3): Stand {
  const { radius, phi, theta } = new Spherical().setFromVector3(position.clone().sub(target));
  return { distance: radius, polar: phi, azimuth: theta };
}

/** Between two stands at `share` of the way, the short way round. */
export function between(from: Stand, to: Stand, share: number): Stand {
  const turn = Math.atan2(Math.sin(to.azimuth - from.azimuth), Math.cos(to.azimuth - from.azimuth));
  const mix = (one: number, other: number): number => one + (other - one) * share;
  return {
    distance: mix(from.distance, to.distance),
    polar: mix(from.polar, to.polar),
    azimuth: from.azimuth + turn * share,
  };
}

/** Eases in and out; 0 to 1. */
export const ease = (share: number): number => share * share * (3 - 2 * share);
