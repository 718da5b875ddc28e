import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, type ReactElement } from 'react';
import { BufferGeometry, DoubleSide, Vector3 } from 'three';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import type { Inks } from './use-inks.ts';
import { writtenWord } from './word-texture.ts';

/** On the stage, whose form is 1.75 high. */
const RADIUS = 0.42;
const WORD_AT = 0.66;
/** Letters drawn out lengthways, as on a road, so that they can be read from a low stand. */
const WORD_HEIGHT = 0.26;
const DRAWN_OUT = 1.75;

/** The floor: a ring round the feet, and the word for the front where the front is. */
export function ImportFloor({ inks }: { readonly inks: Inks }): ReactElement {
  const { invalidate } = useThree();
  const ring = useMemo(() => ringLine(), []);
  const arrow = useMemo(() => arrowLine(), []);
  const word = useMemo(() => writtenWord(IMPORT_STEP_WORDS.front, inks.ink, 600), [inks]);
  useEffect(() => {
    invalidate();
    return () => word.texture.dispose();
  }, [word, invalidate]);
  useEffect(
    () => () => {
      ring.dispose();
      arrow.dispose();
    },
    [ring, arrow],
  );
  const width = (word.aspect * WORD_HEIGHT) / DRAWN_OUT;
  return (
    <group name="floor">
      <lineLoop geometry={ring}>
        <lineBasicMaterial color={inks.soft} toneMapped={false} />
      </lineLoop>
      <lineSegments geometry={arrow}>
        <lineBasicMaterial color={inks.ink} toneMapped={false} />
      </lineSegments>
      <mesh position={[0, 0, WORD_AT]} rotation={[-Math.PI / 2, 0, 0]}>
        <planeGeometry args={[width, WORD_HEIGHT]} />
        <meshBasicMaterial
          map={word.texture}
          transparent
          depthWrite={false}
          side={DoubleSide}
          toneMapped={false}
        />
      </mesh>
    </group>
  );
}

const ringLine = (): BufferGeometry =>
  new BufferGeometry().setFromPoints(
    Array.from({ length: 96 }, (_, i) => {
      const angle = (2 * Math.PI * i) / 96;
      return new Vector3(RADIUS * Math.sin(angle), 0, RADIUS * Math.cos(angle));
    }),
  );

/** From the ring towards the word. */
const arrowLine = (): BufferGeometry => {
  const tip = new Vector3(0, 0, RADIUS + 0.075);
  const barb = (side: number): Vector3 => new Vector3(0.032 * side, 0, RADIUS + 0.035);
  return new BufferGeometry().setFromPoints([
    new Vector3(0, 0, RADIUS - 0.04),
    tip,
    tip,
    barb(1),
    tip,
    barb(-1),
  ]);
};
