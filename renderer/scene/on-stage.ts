import { Vector3, type BufferGeometry, type Camera } from 'three';

/** Size of the stage, px. */
export interface StageSize {
  readonly width: number;
  readonly height: number;
}

interface Eye {
  readonly camera: Camera;
  readonly size: StageSize;
}

/** Where a point lies on the stage, px from its left and upper edge. */
export function onStage(point: Vector3, { camera, size }: Eye): { readonly x: number; readonly y: number } {
  const { x, y } = point.clone().project(camera);
  return { x: (x * 0.5 + 0.5) * size.width, y: (0.5 - y * 0.5) * size.height };
}

/** How far a mesh reaches to either side of the stage, px, from the corners of its box. */
export function boxOnStage(
  geometry: BufferGeometry,
  eye: Eye,
): { readonly left: number; readonly right: number } {
  if (geometry.boundingBox === null) geometry.computeBoundingBox();
  const { min, max } = geometry.boundingBox!;
  let left = Infinity;
  let right = -Infinity;
  for (let corner = 0; corner < 8; corner++) {
    const { x } = onStage(
      new Vector3(corner & 1 ? max.x : min.x, corner & 2 ? max.y : min.y, corner & 4 ? max.z : min.z),
      eye,
    );
    left = Math.min(left, x);
    right = Math.max(right, x);
  }
  return { left, right };
}
