import {
  Mesh,
  Raycaster,
  Vector2,
  Vector3,
  type BufferGeometry,
  type Camera,
  type Intersection,
} from 'three';
import type { Line2 } from 'three/addons/lines/Line2.js';
import type { BrushStroke } from '../../core/body/tissue-map.ts';
import type { Brush } from '../store/body-store.ts';
import type { Table } from '../table.ts';
import { placeRing } from './brush-ring.ts';
import { freeRoom } from './views.ts';

/** Where the brush is used. */
export interface BrushPlace {
  readonly element: HTMLElement;
  readonly camera: Camera;
  readonly skin: BufferGeometry;
  readonly ring: Line2;
  readonly invalidate: () => void;
  readonly table: Pick<Table, 'body' | 'bodyDeeds' | 'signals'>;
}

/** Strokes follow each other by this share of the radius. */
const SPACING = 0.5;
/** Share of the radius over which a stroke fades out. */
const FALLOFF = 0.5;

/** Draws strokes under a hand, and reads the flesh under the pointer, until the returned function is called. */
export function attachBrush(place: BrushPlace): () => void {
  const { element, ring, invalidate, skin, table } = place;
  const { body, bodyDeeds, signals } = table;
  const hitAt = hitter(place);
  let last: Vector3 | null = null;
  let frame = 0;

  const draw = ({ point }: Intersection): void => {
    const { brush, fleshShown } = body.getState();
    if (last !== null && last.distanceTo(point) < (SPACING * brush.radiusMm) / 1000) return;
    last = point.clone();
    const tissue = bodyDeeds.tissueNow();
    bodyDeeds.drawTissue({ ...tissue, strokes: [...tissue.strokes, strokeAt(point, brush, fleshShown)] });
  };
  const begin = (event: PointerEvent): void => {
    if (event.button !== 0 || !body.getState().brush.isOn) return;
    const hit = hitAt(...onElement(event, element));
    if (hit === undefined) return;
    // The form is not turned by the hand that draws.
    event.stopImmediatePropagation();
    element.setPointerCapture(event.pointerId);
    last = null;
    draw(hit);
  };
  const follow = (event: PointerEvent): void => {
    const hit = event.buttons !== 0 && last === null ? undefined : hitAt(...onElement(event, element));
    if (last !== null && hit !== undefined) draw(hit);
    const { brush } = body.getState();
    ring.visible = hit !== undefined && brush.isOn;
    if (hit !== undefined) placeRing(ring, hit, brush.radiusMm / 1000);
    const { left, top } = element.getBoundingClientRect();
    const at = { x: event.clientX - left, y: event.clientY - top };
    signals.tissue.set(hit === undefined ? null : { ...at, vertex: nearestCorner(hit, skin) });
    invalidate();
  };
  const move = (event: PointerEvent): void => {
    if (frame !== 0) return;
    frame = requestAnimationFrame(() => {
      frame = 0;
      follow(event);
    });
  };
  const lift = (): void => {
    if (last === null) return;
    last = null;
    bodyDeeds.liftBrush();
  };
  const leave = (): void => {
    ring.visible = false;
    signals.tissue.set(null);
    invalidate();
  };
  signals.strokeMiddle.set(() => {
    const hit = hitAt(...middleOf(element));
    if (hit === undefined) return;
    draw(hit);
    lift();
  });
  const heard = [
    ['pointermove', move],
    ['pointerup', lift],
    ['pointercancel', lift],
    ['pointerleave', leave],
  ] as const;
  element.addEventListener('pointerdown', begin, { capture: true });
  for (const [kind, hear] of heard) element.addEventListener(kind, hear);
  return () => {
    cancelAnimationFrame(frame);
    lift();
    leave();
    signals.strokeMiddle.set(null);
    element.removeEventListener('pointerdown', begin, { capture: true });
    for (const [kind, hear] of heard) element.removeEventListener(kind, hear);
  };
}

/** The place of the skin that is seen at a place of the stage, -1 to 1. */
function hitter({ skin, camera }: BrushPlace): (x: number, y: number) => Intersection | undefined {
  const mesh = new Mesh(skin);
  const caster = new Raycaster();
  return (x, y) => {
    caster.setFromCamera(new Vector2(x, y), camera);
    return caster.intersectObject(mesh)[0];
  };
}

/** What the brush lays down at a point, m and Pa. */
function strokeAt({ x, y, z }: Vector3, brush: Brush, shown: 'depth' | 'modulus'): BrushStroke {
  return {
    center: [x, y, z],
    radius: brush.radiusMm / 1000,
    falloff: FALLOFF,
    ...(shown === 'depth' ? { depth: brush.depthMm / 1000 } : { modulus: 1000 * brush.modulusKPa }),
  };
}

function nearestCorner({ point, face }: Intersection, skin: BufferGeometry): number {
  const position = skin.getAttribute('position');
  const away = (v: number): number => new Vector3().fromBufferAttribute(position, v).distanceTo(point);
  return [face!.a, face!.b, face!.c].reduce((best, v) => (away(v) < away(best) ? v : best));
}

function onElement({ clientX, clientY }: PointerEvent, element: HTMLElement): [number, number] {
  const { left, top, width, height } = element.getBoundingClientRect();
  return [(2 * (clientX - left)) / width - 1, 1 - (2 * (clientY - top)) / height];
}

/** Middle of the stage that paper leaves free, -1 to 1. */
function middleOf({ clientWidth, clientHeight }: HTMLElement): [number, number] {
  const { left, right, top, bottom } = freeRoom(clientWidth, clientHeight, true);
  return [(left + right) / clientWidth - 1, 1 - (top + bottom) / clientHeight];
}
