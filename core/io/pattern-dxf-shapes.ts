import { Fault } from '../fault/fault.ts';
import {
  after,
  moved,
  scaled,
  transformed,
  turnedBy,
  UNCHANGED,
  type FlatTransform,
} from '../pattern/flat-transform.ts';
import type { FlatPoint } from '../pattern/pattern.ts';
import { arcPoints, bulgePoints } from './pattern-arcs.ts';
import { dxfNumber, numberOf, textOf, type DxfBlock, type DxfEntity } from './pattern-dxf-file.ts';
import { PATTERN_LIMITS, requirePatternWithin } from './pattern-limits.ts';
import { shortened } from './mesh-number.ts';

/** An entity and how it is placed in the drawing. */
export interface PlacedEntity {
  readonly entity: DxfEntity;
  readonly place: FlatTransform;
}

/** A line of a drawing in its own unit. */
export interface DxfCurve {
  readonly points: readonly FlatPoint[];
  /** The first point is not repeated then. */
  readonly closed: boolean;
}

/**
 * What a block holds, with all blocks placed in it.
 *
 * @throws {Fault} `pattern/no-such-block`, `pattern/blocks-in-circles`, `pattern/too-large`.
 */
export function placedEntities(
  entities: readonly DxfEntity[],
  blocks: ReadonlyMap<string, DxfBlock>,
): PlacedEntity[] {
  const placed: PlacedEntity[] = [];
  const place = (some: readonly DxfEntity[], at: FlatTransform, depth: number): void => {
    for (const entity of some) {
      if (entity.type === 'INSERT') {
        const block = blockOf(entity, blocks);
        if (depth >= PATTERN_LIMITS['blocks within blocks']) {
          throw new Fault('pattern/blocks-in-circles', { line: entity.line, value: shortened(block.name) });
        }
        place(block.entities, after(at, insertPlace(entity, block)), depth + 1);
      } else {
        placed.push({ entity, place: at });
        requirePatternWithin('drawn things', placed.length);
      }
    }
  };
  place(entities, UNCHANGED, 0);
  return placed;
}

/** @throws {Fault} `pattern/no-such-block`. */
export function blockOf(insert: DxfEntity, blocks: ReadonlyMap<string, DxfBlock>): DxfBlock {
  const name = textOf(insert, 2);
  const block = blocks.get(name);
  if (!block) throw new Fault('pattern/no-such-block', { line: insert.line, value: shortened(name) });
  return block;
}

/** How an INSERT places its block. */
export function insertPlace(insert: DxfEntity, { base }: DxfBlock): FlatTransform {
  const turn = turnedBy((Math.PI / 180) * numberOf(insert, 50, 0));
  const size = scaled(numberOf(insert, 41, 1), numberOf(insert, 42, 1));
  const to = moved(numberOf(insert, 10, 0), numberOf(insert, 20, 0));
  return after(to, after(turn, after(size, moved(-base[0], -base[1]))));
}

/**
 * The line that an entity draws; null where it draws none.
 *
 * @param tolerance - How far chords may lie off an arc, in the drawing's unit.
 */
export function dxfCurve({ entity, place }: PlacedEntity, tolerance: number): DxfCurve | null {
  const curve = plainCurve(entity, tolerance);
  return curve && { ...curve, points: curve.points.map((at) => transformed(place, at)) };
}

/** The point of a POINT or TEXT. */
export const dxfPoint = ({ entity, place }: PlacedEntity): FlatPoint =>
  transformed(place, [numberOf(entity, 10), numberOf(entity, 20)]);

function plainCurve(entity: DxfEntity, tolerance: number): DxfCurve | null {
  switch (entity.type) {
    case 'LINE':
      return {
        points: [
          [numberOf(entity, 10), numberOf(entity, 20)],
          [numberOf(entity, 11), numberOf(entity, 21)],
        ],
        closed: false,
      };
    case 'POLYLINE':
      return bulged(polylineCorners(entity), isClosed(entity), tolerance);
    case 'LWPOLYLINE':
      return bulged(lightCorners(entity), isClosed(entity), tolerance);
    case 'ARC': {
      const from = (Math.PI / 180) * numberOf(entity, 50);
      const to = (Math.PI / 180) * numberOf(entity, 51);
      const turn = 2 * Math.PI;
      const sweep = (((to - from) % turn) + turn) % turn || turn;
      return { points: circlePoints(entity, { from, sweep }, tolerance), closed: false };
    }
    case 'CIRCLE':
      return {
        points: circlePoints(entity, { from: 0, sweep: 2 * Math.PI }, tolerance).slice(0, -1),
        closed: true,
      };
    default:
      return null;
  }
}

const isClosed = (entity: DxfEntity): boolean => (numberOf(entity, 70, 0) & 1) === 1;

const circlePoints = (
  entity: DxfEntity,
  angles: { readonly from: number; readonly sweep: number },
  tolerance: number,
): FlatPoint[] =>
  arcPoints([numberOf(entity, 10), numberOf(entity, 20)], Math.abs(numberOf(entity, 40)), angles, tolerance);

interface BulgedCorner {
  readonly at: FlatPoint;
  readonly bulge: number;
}

/** Control points of a spline that only frame it have flag 16. */
const polylineCorners = ({ vertices }: DxfEntity): BulgedCorner[] =>
  vertices
    .filter((vertex) => (numberOf(vertex, 70, 0) & 16) === 0)
    .map((vertex) => ({
      at: [numberOf(vertex, 10), numberOf(vertex, 20)],
      bulge: numberOf(vertex, 42, 0),
    }));

function lightCorners({ groups, type, line }: DxfEntity): BulgedCorner[] {
  const corners: { x: number; y: number | null; bulge: number }[] = [];
  for (const group of groups) {
    if (group.code === 10) corners.push({ x: dxfNumber(group, type), y: null, bulge: 0 });
    const corner = corners.at(-1);
    if (corner && group.code === 20) corner.y = dxfNumber(group, type);
    if (corner && group.code === 42) corner.bulge = dxfNumber(group, type);
  }
  return corners.map(({ x, y, bulge }) => {
    if (y === null)
      throw new Fault('pattern/bad-number', { line, what: `group 20 of a ${type}`, value: 'nothing' });
    return { at: [x, y], bulge };
  });
}

function bulged(corners: readonly BulgedCorner[], closed: boolean, tolerance: number): DxfCurve | null {
  if (corners.length < 2) return null;
  const points: FlatPoint[] = [corners[0]!.at];
  corners.forEach(({ at, bulge }, i) => {
    const next = corners[i + 1] ?? (closed ? corners[0] : undefined);
    if (next) points.push(...bulgePoints(at, next.at, bulge, tolerance));
  });
  if (closed) points.pop();
  return { points, closed };
}
