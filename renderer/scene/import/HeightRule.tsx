import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, type ReactElement } from 'react';
import { BufferGeometry, Vector3 } from 'three';
import { tallWords } from '../../../core/words/import-step-words.ts';
import { chosenHeight } from '../../store/import-store.ts';
import { useImport } from '../../table.ts';
import type { PreviewStand } from './stand-preview.ts';
import type { Inks } from './use-inks.ts';
import { writtenWord } from './word-texture.ts';

interface HeightRuleProps {
  readonly stand: PreviewStand;
  readonly inks: Inks;
}

/** How far the rule stands off the body, and how long its ticks are, on the stage. */
const AWAY = 0.09;
/** Outside the ring on the floor, so that it keeps still while a body turns. */
const LEAST_AWAY = 0.5;
const TICK = 0.022;
const LABEL_HEIGHT = 0.075;
/** No more ticks than this. */
const MOST_TICKS = 24;

/** A rule beside the body, as a tailor's: ticks at round lengths, and the height over it. */
export function HeightRule({ stand, inks }: HeightRuleProps): ReactElement {
  const { invalidate } = useThree();
  const heightMm = useImport(chosenHeight);
  const { height, width } = stand;
  const rule = useMemo(() => ruleLines(height, heightMm), [height, heightMm]);
  const label = useMemo(() => writtenWord(tallWords(heightMm), inks.ink, 400), [heightMm, inks]);
  useEffect(() => {
    invalidate();
    return () => {
      rule.dispose();
      label.texture.dispose();
    };
  }, [rule, label, invalidate]);
  const x = -Math.max(LEAST_AWAY, width / 2 + AWAY);
  return (
    <group position={[x, 0, 0]} name="rule">
      <lineSegments geometry={rule}>
        <lineBasicMaterial color={inks.soft} toneMapped={false} />
      </lineSegments>
      <sprite
        position={[0, height + 0.6 * LABEL_HEIGHT, 0]}
        scale={[label.aspect * LABEL_HEIGHT, LABEL_HEIGHT, 1]}
      >
        <spriteMaterial map={label.texture} transparent depthTest={false} toneMapped={false} />
      </sprite>
    </group>
  );
}

/** 100 mm apart on a person; 1, 2 or 5 of a power of ten on whatever else the unit makes of it. */
export function tickStep(heightMm: number): number {
  const power = 10 ** Math.floor(Math.log10(heightMm / MOST_TICKS));
  return [1, 2, 5, 10].map((lead) => lead * power).find((step) => heightMm / step <= MOST_TICKS)!;
}

function ruleLines(height: number, heightMm: number): BufferGeometry {
  const step = tickStep(heightMm);
  const points = [new Vector3(0, 0, 0), new Vector3(0, height, 0)];
  for (let count = 0; count * step <= heightMm * (1 + 1e-9); count++) {
    const y = (height * count * step) / heightMm;
    const long = count % 5 === 0 ? 2 * TICK : TICK;
    points.push(new Vector3(0, y, 0), new Vector3(-long, y, 0));
  }
  points.push(new Vector3(0, height, 0), new Vector3(3 * TICK, height, 0));
  return new BufferGeometry().setFromPoints(points);
}
