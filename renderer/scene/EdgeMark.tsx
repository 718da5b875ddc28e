import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, useSyncExternalStore, type ReactElement } from 'react';
import { Vector3, type BufferGeometry } from 'three';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import { LineSegments2 } from 'three/addons/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/addons/lines/LineSegmentsGeometry.js';
import { OUTSIDE_COLOURS } from '../../core/sheet/outside-colours.ts';
import type { EdgeSegments } from '../../core/sheet/panel-picture.ts';
import { useTable } from '../table.ts';
import { screenColour } from './cloth-material.ts';
import type { WornForm } from './form-geometry.ts';

interface EdgeMarkProps {
  readonly drawn: WornForm;
  readonly edges: EdgeSegments;
}

/** The edge of the flat panels that is pointed at, where the sewn cloth has it: ink on paper, readable on any colour. */
export function EdgeMark({ drawn, edges }: EdgeMarkProps): ReactElement | null {
  const { invalidate } = useThree();
  const { edge } = useTable().signals;
  const marked = useSyncExternalStore(edge.listen, edge.get, edge.get);
  const segments = marked === null ? undefined : edges[marked];
  const lines = useMemo(() => (segments ? markedLines(drawn.cloth, segments) : []), [drawn, segments]);
  useEffect(() => {
    invalidate();
    return () => {
      for (const { geometry, material } of lines) {
        geometry.dispose();
        material.dispose();
      }
      invalidate();
    };
  }, [lines, invalidate]);
  return (
    <>
      {lines.map((line) => (
        <primitive key={line.uuid} object={line} />
      ))}
    </>
  );
}

/** px. */
const PAPER_WIDTH = 6;
const INK_WIDTH = 3;
/** So far off the cloth that no facet comes through: the ink before the paper, m. */
const LIFT = { paper: 0.002, ink: 0.0024 };

const markedLines = (cloth: BufferGeometry, segments: Uint32Array): LineSegments2[] => [
  lineAlong(cloth, segments, { lift: LIFT.paper, width: PAPER_WIDTH, colour: '#fcfbf8', order: 1 }),
  lineAlong(cloth, segments, { lift: LIFT.ink, width: INK_WIDTH, colour: OUTSIDE_COLOURS.ink, order: 2 }),
];

interface Stroke {
  readonly lift: number;
  readonly width: number;
  readonly colour: string;
  /** What comes later lies above. */
  readonly order: number;
}

function lineAlong(
  cloth: BufferGeometry,
  segments: Uint32Array,
  { lift, width, colour, order }: Stroke,
): LineSegments2 {
  const position = cloth.getAttribute('position');
  const normal = cloth.getAttribute('normal');
  const points = new Float32Array(3 * segments.length);
  const at = new Vector3();
  const out = new Vector3();
  segments.forEach((v, i) => {
    at.fromBufferAttribute(position, v)
      .addScaledVector(out.fromBufferAttribute(normal, v), lift)
      .toArray(points, 3 * i);
  });
  const geometry = new LineSegmentsGeometry();
  geometry.setPositions(points);
  const material = new LineMaterial({
    linewidth: width,
    toneMapped: false,
    depthWrite: false,
    transparent: true,
  });
  material.color = screenColour(colour);
  const line = new LineSegments2(geometry, material);
  line.renderOrder = order;
  return line;
}
