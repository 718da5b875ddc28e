import { triple, type Triple } from '../mesh/triple.ts';
import type { Body } from './body.ts';
import type { LandmarkName } from './landmarks.ts';
import type { BonyPlace, BonyPoint } from './tissue-map.ts';

/** A body whose bony places can be named. */
export type BonyBody = Pick<Body, 'skin' | 'landmarks' | 'forward' | 'tissueDepth'>;

type Side = 'left' | 'middle' | 'right';

/**
 * Places where bone lies close under the skin, on the skin: found from landmarks by where anatomy has them, no nearer
 * than a centimetre or two. Places whose landmarks are missing are left out.
 */
export function bonyPoints(body: BonyBody): BonyPoint[] {
  const wanted = [...middlePlaces(body), ...sidePlaces(body, 'left'), ...sidePlaces(body, 'right')];
  return wanted.map(({ place, side, near }) => {
    const v = nearestVertex(body, near);
    return {
      place,
      side,
      point: triple((k) => body.skin.positions[3 * v + k]!),
      depth: body.tissueDepth[v]!,
    };
  });
}

interface Wanted {
  readonly place: BonyPlace;
  readonly side: Side;
  readonly near: Triple;
}

function middlePlaces({ landmarks }: BonyBody): Wanted[] {
  return (['waistBack', 'underbustBack', 'chestBack'] as const).flatMap((name): Wanted[] => {
    const point = landmarks[name]?.point;
    return point === undefined ? [] : [{ place: 'spine', side: 'middle', near: [...point] }];
  });
}

function sidePlaces({ landmarks, forward }: BonyBody, side: 'left' | 'right'): Wanted[] {
  const end = side === 'left' ? 'Left' : 'Right';
  const at = (name: LandmarkName): Readonly<Triple> | undefined => landmarks[name]?.point;
  const shifted = (from: Readonly<Triple>, ahead: number, up = 0): Triple =>
    triple((k) => from[k]! + ahead * forward[k]! + (k === 1 ? up : 0));
  const found: Wanted[] = [];
  const add = (place: BonyPlace, near: Triple | null): void => {
    if (near !== null) found.push({ place, side, near });
  };
  const between = (one: LandmarkName, other: LandmarkName, share: number): Triple | null => {
    const [a, b] = [at(one), at(other)];
    return a && b ? triple((k) => a[k]! + share * (b[k]! - a[k]!)) : null;
  };
  const knee = at(`knee${end}`);
  add('kneecap', knee ? [...knee] : null);
  // The calf's landmark lies behind: the shin lies straight ahead of it.
  const calf = at(`calf${end}`);
  add('shin', calf ? shifted(calf, 0.12) : null);
  const ankle = at(`ankle${end}`);
  add('ankleBones', ankle ? shifted(ankle, 0, -0.02) : null);
  const elbow = at(`elbow${end}`);
  add('elbow', elbow ? shifted(elbow, -0.05) : null);
  // Front of the iliac crest and edge of the ribs: half way from the side to the front.
  add('iliacCrest', between(`topHipSide${end}`, 'topHipFront', 0.2));
  add(
    'ribEdge',
    between(`underbustSide${end}`, 'underbustFront', 0.5) ?? between(`chestSide${end}`, 'chestFront', 0.5),
  );
  add('collarBone', between('neckFront', `shoulder${end}`, 0.5));
  return found;
}

function nearestVertex({ skin: { positions } }: BonyBody, point: Readonly<Triple>): number {
  let best = Infinity;
  let at = 0;
  for (let v = 0; v < positions.length / 3; v++) {
    const squared =
      (positions[3 * v]! - point[0]) ** 2 +
      (positions[3 * v + 1]! - point[1]) ** 2 +
      (positions[3 * v + 2]! - point[2]) ** 2;
    if (squared < best) [best, at] = [squared, v];
  }
  return at;
}
