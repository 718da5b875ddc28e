import { useEffect, useMemo, type ReactElement } from 'react';
import type { ImportStep } from '../../../core/body/import-report.ts';
import { writtenRing } from './word-texture.ts';
import type { Inks } from './use-inks.ts';

interface HoleMarksProps {
  readonly steps: readonly ImportStep[];
  readonly inks: Inks;
  /** Metres of the body per measure of the stage. */
  readonly metres: number;
}

/** On the stage. */
const SIZE = 0.05;
const MOST_MARKS = 40;

/** A ring round every hole that is left open, and round a place where the skin cuts through itself, seen through the body. */
export function HoleMarks({ steps, inks, metres }: HoleMarksProps): ReactElement {
  const ring = useMemo(() => writtenRing(inks.alarm), [inks]);
  useEffect(() => () => ring.dispose(), [ring]);
  const places = steps.flatMap((step) => {
    if (step.kind === 'hole') return step.facts.done === 'closed' ? [] : [step.facts.place];
    return step.kind === 'self-intersections' && step.facts.at !== null ? [step.facts.at] : [];
  });
  return (
    <>
      {places.slice(0, MOST_MARKS).map(({ xMm, yMm, zMm }) => (
        <sprite
          key={`${xMm} ${yMm} ${zMm}`}
          position={[xMm / 1000, yMm / 1000, zMm / 1000]}
          scale={[SIZE * metres, SIZE * metres, 1]}
          renderOrder={1}
        >
          <spriteMaterial map={ring} transparent depthTest={false} toneMapped={false} />
        </sprite>
      ))}
    </>
  );
}
