/** Breasts, seat and mound brought to size. Lengths in mm. */
import { triple } from '../mesh/triple.ts';
import type { FitForm, SoftMass } from './fit-forms.ts';
import { usualShape } from './fit-parameters.ts';

/** How large a breast is, and how far a garment holds it up (0 to 1). */
export interface BreastSize {
  readonly cup: number;
  readonly heightScale: number;
  readonly support: number;
}

/**
 * The breast of a cup: it stands out in proportion to the cup, its radii grow with small powers of it, and the fold
 * under it sinks slowly. Radii in proportion to the cup push it through the back and down over the ribs.
 */
export function sizedBreast(form: FitForm, chestScale: number, size: BreastSize): SoftMass {
  const { cup, heightScale, support } = size;
  // There is little to hold up of a very small breast.
  const breast = between(form.breast!, form.heldBreast!, support * Math.min(1, cup / 0.4));
  const [x, y, z] = breast.centre;
  const [, chestZ, , chestFront] = form.trunk.find((row) => row[0] === 1210)!;
  const standsOut = z + breast.deep - (chestZ + chestFront);
  const deep = breast.deep * cup ** 0.5;
  const isSmall = cup < 1;
  // A small breast keeps its base and grows flat; a large one hangs lower.
  const wider = isSmall ? 0.2 : 0.3;
  const lift = isSmall ? 0.3 : 0.12;
  return {
    ...breast,
    centre: [
      x * chestScale * cup ** 0.12,
      (y + breast.down * (cup ** lift - 1)) * heightScale,
      chestZ * heightScale + chestFront * chestScale + standsOut * cup - deep,
    ],
    across: breast.across * chestScale * cup ** wider,
    up: breast.up * heightScale * cup ** wider,
    down: breast.down * heightScale * cup ** 0.3,
    deep,
    join: breast.join * (1 + 0.7 * Math.max(0, 1 - cup)),
    joinTop: breast.joinTop * cup ** 0.4,
    joinMiddle: breast.joinMiddle * (isSmall ? cup ** 0.5 : cup),
  };
}

/** A mass part of the way from one to another. */
function between(one: SoftMass, other: SoftMass, share: number): SoftMass {
  const mix = (a: number, b: number): number => a + (b - a) * share;
  return {
    centre: triple((k) => mix(one.centre[k]!, other.centre[k]!)),
    across: mix(one.across, other.across),
    up: mix(one.up, other.up),
    down: mix(one.down, other.down),
    deep: mix(one.deep, other.deep),
    yaw: mix(one.yaw, other.yaw),
    pitch: mix(one.pitch, other.pitch),
    join: mix(one.join, other.join),
    joinTop: mix(one.joinTop, other.joinTop),
    joinMiddle: mix(one.joinMiddle, other.joinMiddle),
  };
}

/**
 * The seat with its cleft as deep as asked: its halves meet more or less softly and lie farther apart or nearer. On
 * finished skins of a middling size the cleft comes within 1 mm of what is asked (read 7, 15, 19, 24 for 8, 15, 19, 24).
 */
export function cloven(seat: SoftMass, deep: number): SoftMass {
  const deeper = deep - usualShape('seatCleft');
  const [x, y, z] = seat.centre;
  return {
    ...seat,
    centre: [x + 0.6 * deeper, y, z],
    across: seat.across - 0.6 * deeper,
    joinMiddle: Math.max(22, seat.joinMiddle - 3 * deeper),
  };
}

/** A mass of the pelvis at its size: as wide and deep as the girth makes it, as tall as the figure. */
export function sizedMass(mass: SoftMass, scale: number, heightScale: number): SoftMass {
  const [x, y, z] = mass.centre;
  return {
    ...mass,
    centre: [x * scale, y * heightScale, z * scale],
    across: mass.across * scale,
    up: mass.up * heightScale,
    down: mass.down * heightScale,
    deep: mass.deep * scale,
  };
}
