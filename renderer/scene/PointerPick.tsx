import { useThree } from '@react-three/fiber';
import { useEffect, type ReactElement } from 'react';
import { Mesh, Raycaster, Triangle, Vector2, Vector3, type BufferGeometry, type Intersection } from 'three';
import type { Field, ValueBand } from '../../core/fields/field.ts';
import type { PointerReading } from '../store/stage-signals.ts';
import type { SettledStudy } from '../store/study-store.ts';
import { paintedField, type ViewState } from '../store/view-store.ts';
import { useTable } from '../table.ts';
import type { WornForm } from './form-geometry.ts';

interface PointerPickProps {
  readonly drawn: WornForm;
  readonly settled: SettledStudy;
}

/** Reads the value under the pointer, at most once a frame, and tells it without a render. */
export function PointerPick({ drawn, settled }: PointerPickProps): ReactElement | null {
  const { camera, gl } = useThree();
  const { signals, view } = useTable();

  useEffect(() => {
    const element = gl.domElement;
    const cloth = new Mesh(drawn.cloth);
    const skin = new Mesh(drawn.skin);
    const caster = new Raycaster();
    const edgeAt = edgeReader(settled);
    let frame = 0;
    /** Whether an edge is marked from here, not from the paper. */
    let isMarking = false;
    const mark = (key: string | null): void => {
      if (key === null && !isMarking) return;
      isMarking = key !== null;
      if (signals.edge.get() !== key) signals.edge.set(key);
    };
    const clear = (): void => {
      cancelAnimationFrame(frame);
      frame = 0;
      mark(null);
      if (signals.pointer.get() !== null) signals.pointer.set(null);
    };
    const read = (event: PointerEvent): void => {
      if (event.buttons !== 0) return clear();
      if (frame !== 0) return;
      frame = requestAnimationFrame(() => {
        frame = 0;
        const { left, top, width, height } = element.getBoundingClientRect();
        const x = event.clientX - left;
        const y = event.clientY - top;
        caster.setFromCamera(new Vector2((2 * x) / width - 1, 1 - (2 * y) / height), camera);
        const hit = caster.intersectObject(cloth)[0];
        // An arm or the other leg may stand before the cloth.
        const hidden =
          hit !== undefined && (caster.intersectObject(skin)[0]?.distance ?? Infinity) < hit.distance;
        if (hit === undefined || hidden) return clear();
        const weights = weightsAt(hit, drawn.cloth);
        signals.pointer.set({ x, y, ...readingAt(weights, settled, view.getState()) });
        mark(view.getState().leaf === 'garment' ? edgeAt(weights) : null);
      });
    };
    element.addEventListener('pointermove', read);
    element.addEventListener('pointerleave', clear);
    element.addEventListener('pointerdown', clear);
    const stopListening = view.subscribe(clear);
    return () => {
      clear();
      stopListening();
      element.removeEventListener('pointermove', read);
      element.removeEventListener('pointerleave', clear);
      element.removeEventListener('pointerdown', clear);
    };
  }, [camera, gl, drawn, settled, signals, view]);
  return null;
}

/** Tells the edge of the flat panels that a triangle of the cloth touches, by its nearest corner; null inside a panel. */
function edgeReader({ cut }: SettledStudy): (weights: Weights) => string | null {
  const edgeOf = new Map<number, string>();
  for (const [key, segments] of Object.entries(cut?.edges ?? {})) {
    for (const v of segments) if (!edgeOf.has(v)) edgeOf.set(v, key);
  }
  return (weights) => {
    const nearest = weights.toSorted(([, one], [, other]) => other - one);
    return nearest.map(([v]) => edgeOf.get(v)).find((key) => key !== undefined) ?? null;
  };
}

function readingAt(
  weights: Weights,
  settled: SettledStudy,
  view: ViewState,
): Omit<PointerReading, 'x' | 'y'> {
  const field = paintedField(settled, view);
  const value = valueAt(field, weights);
  const isDifference = view.showing === 'difference';
  return {
    field: field.id,
    unit: field.unit,
    showing: view.showing,
    value,
    band: value === null ? null : bandAt(field, weights),
    pair: isDifference ? pairAt(settled, field, weights) : null,
  };
}

type Weights = readonly (readonly [vertex: number, weight: number])[];

/** The corners of the triangle that was hit, each with its share. */
function weightsAt({ face, point }: Intersection, cloth: BufferGeometry): Weights {
  const position = cloth.getAttribute('position');
  const corners = [face!.a, face!.b, face!.c] as const;
  const [a, b, c] = corners.map((v) => new Vector3().fromBufferAttribute(position, v));
  const shares = Triangle.getBarycoord(point, a!, b!, c!, new Vector3()) ?? new Vector3(1, 0, 0);
  return corners.map((v, k) => [v, shares.getComponent(k)] as const);
}

/** As the picture has it: linear between corners, missing where the greater part is. */
function valueAt(field: Field, weights: Weights): number | null {
  const missing = weights.reduce((sum, [v, weight]) => sum + weight * field.undefinedAt[v]!, 0);
  if (missing > 0.5) return null;
  return weights.reduce((sum, [v, weight]) => sum + weight * field.values[v]!, 0);
}

function bandAt({ band }: Field, weights: Weights): ValueBand | null {
  if (band === undefined) return null;
  const between = (values: Float64Array): number =>
    weights.reduce((sum, [v, weight]) => sum + weight * values[v]!, 0);
  return { low: between(band.low), high: between(band.high) };
}

function pairAt(settled: SettledStudy, field: Field, weights: Weights): readonly [number, number] | null {
  const [first, second] = settled.worn.map(({ fields }) => fields.find(({ id }) => id === field.id));
  if (first === undefined || second === undefined) return null;
  return [valueAt(first, weights) ?? 0, valueAt(second, weights) ?? 0];
}
