import { useEffect, useMemo, type ReactElement } from 'react';
import type { SettledStudy } from '../store/study-store.ts';
import { useBody } from '../table.ts';
import { skinGeometry } from './form-geometry.ts';
import { skinMaterial } from './skin-material.ts';
import { TapeHand } from './TapeHand.tsx';
import { TapeLines } from './TapeLines.tsx';
import { TissueSkin } from './TissueSkin.tsx';

/** The form without cloth, as it is measured: tapes round it, or its flesh as a map. */
export function BareForm({ settled }: { readonly settled: SettledStudy }): ReactElement {
  const part = useBody((body) => body.part);
  const flesh = useBody((body) => body.flesh);
  const { positions, triangles } = settled.skin;
  const skin = useMemo(() => skinGeometry(positions, triangles), [positions, triangles]);
  const material = useMemo(() => skinMaterial(), []);
  useEffect(() => () => skin.dispose(), [skin]);
  useEffect(() => () => material.dispose(), [material]);
  // While the study settles again the flesh as read last stays.
  const isFit = flesh !== null && 3 * flesh.map.depth.length === positions.length;
  if (part === 'flesh') return <TissueSkin skin={skin} flesh={isFit ? flesh : null} />;
  return (
    <group>
      <mesh geometry={skin} material={material} name="skin" />
      <TapeLines />
      <TapeHand skin={skin} />
    </group>
  );
}
