import { Vector3, type Intersection } from 'three';
import { Line2 } from 'three/addons/lines/Line2.js';
import { LineGeometry } from 'three/addons/lines/LineGeometry.js';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import { screenColour } from './cloth-material.ts';

/** Corners of the ring that shows how wide the brush is. */
const CORNERS = 48;

/** A ring of radius 1 round the origin, square to z; drawn over everything, hidden to begin with. */
export function brushRing(): Line2 {
  const geometry = new LineGeometry();
  const places = Array.from({ length: CORNERS + 1 }, (_, i) => {
    const angle = (2 * Math.PI * i) / CORNERS;
    return [Math.cos(angle), Math.sin(angle), 0];
  });
  geometry.setPositions(places.flat());
  const material = new LineMaterial({ linewidth: 2, toneMapped: false, depthTest: false });
  material.color = screenColour('#22262a');
  const ring = new Line2(geometry, material);
  ring.visible = false;
  ring.renderOrder = 3;
  return ring;
}

/** Lays the ring on the skin where it was hit; radius in m. */
export function placeRing(ring: Line2, { point, face }: Intersection, radius: number): void {
  ring.position.copy(point);
  ring.scale.setScalar(radius);
  ring.quaternion.setFromUnitVectors(new Vector3(0, 0, 1), face!.normal);
}
