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
  const { positions, triangles } = settled.skin;
  const skin = useMemo(() => skinGeometry(positions, triangles), [positions, triangles]);
  const material = useMemo(() => skinMaterial(), []);
  useEffect(() => () => skin.dispose(), [skin]);
  useEffect(() => () => material.dispose(), [material]);
  if (part === 'flesh') return <TissueSkin settled={settled} skin={skin} />;
  return (
    <group>
      <mesh geometry={skin} material={material} name="skin" />
      <TapeLines />
      <TapeHand skin={skin} />
    </group>
  );
}
