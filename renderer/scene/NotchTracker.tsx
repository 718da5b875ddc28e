import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo, type ReactElement } from 'react';
import { Vector3, type BufferGeometry, type Camera } from 'three';
import { MOST_BRIDGES, MOST_TIGHT } from '../store/notches.ts';
import { NO_NOTCHES, type NotchPoint } from '../store/stage-signals.ts';
import { wornAt, type SettledStudy } from '../store/study-store.ts';
import { useTable, useView } from '../table.ts';
import type { WornForm } from './form-geometry.ts';
import { freeRoom } from './views.ts';

interface NotchTrackerProps {
  readonly drawn: WornForm;
  readonly settled: SettledStudy;
}

/** Follows the peaks of the listed zones on the screen while the review lies open. */
export function NotchTracker({ drawn, settled }: NotchTrackerProps): ReactElement | null {
  const { camera, size, invalidate } = useThree();
  const { signals } = useTable();
  const isOpen = useView((view) => view.leaf === 'review' && view.showing === 'values');
  const fabric = useView((view) => view.fabric);
  const marks = useMemo(() => {
    const { tight, bridged } = wornAt(settled, fabric).review;
    return [...tight.slice(0, MOST_TIGHT), ...bridged.slice(0, MOST_BRIDGES)].flatMap(({ peaks }, index) =>
      peaks.map((vertex) => ({ zone: index + 1, vertex })),
    );
  }, [settled, fabric]);

  useEffect(() => {
    if (!isOpen) signals.notches.set(NO_NOTCHES);
    else invalidate();
  }, [isOpen, signals, invalidate]);

  useFrame(() => {
    if (!isOpen) return;
    const points = marks.map(({ zone, vertex }): NotchPoint => {
      const { place, isFacing } = onStage(drawn.cloth, vertex, camera);
      return {
        zone,
        x: (place.x * 0.5 + 0.5) * size.width,
        y: (0.5 - place.y * 0.5) * size.height,
        isVisible: isFacing,
      };
    });
    const { left, right } = edgesOf(drawn.cloth, camera);
    signals.notches.set({
      points,
      left: (left * 0.5 + 0.5) * size.width,
      right: (right * 0.5 + 0.5) * size.width,
      room: freeRoom(size.width, size.height, true),
    });
  });
  return null;
}

function onStage(
  geometry: BufferGeometry,
  vertex: number,
  camera: Camera,
): { place: Vector3; isFacing: boolean } {
  const point = new Vector3().fromBufferAttribute(geometry.getAttribute('position'), vertex);
  const normal = new Vector3().fromBufferAttribute(geometry.getAttribute('normal'), vertex);
  const isFacing = normal.dot(camera.position.clone().sub(point)) > 0;
  return { place: point.project(camera), isFacing };
}

/** How far the cloth reaches to either side, from the corners of its box; -1 to 1. */
function edgesOf(geometry: BufferGeometry, camera: Camera): { left: number; right: number } {
  const { min, max } = geometry.boundingBox!;
  let left = Infinity;
  let right = -Infinity;
  for (let corner = 0; corner < 8; corner++) {
    const { x } = new Vector3(
      corner & 1 ? max.x : min.x,
      corner & 2 ? max.y : min.y,
      corner & 4 ? max.z : min.z,
    ).project(camera);
    left = Math.min(left, x);
    right = Math.max(right, x);
  }
  return { left, right };
}
