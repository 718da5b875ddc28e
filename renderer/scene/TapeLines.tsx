import { useEffect, useMemo, type ReactElement } from 'react';
import { Line2 } from 'three/addons/lines/Line2.js';
import { LineGeometry } from 'three/addons/lines/LineGeometry.js';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import type { TapeReading } from '../../core/body/body-tape.ts';
import { tapeKey } from '../store/body-store.ts';
import { useBody } from '../table.ts';
import { screenColour } from './cloth-material.ts';
import { liftedTape, ribbonGeometry, ribbonMaterial } from './tape-ribbon.ts';

/** Width of a tape's line that is not looked at, px. */
const THIN = 1.2;

/** Every tape as a thin line round the form; the one that is looked at as a tailor's tape. */
export function TapeLines(): ReactElement | null {
  const tape = useBody((body) => body.tape);
  const chosen = useBody((body) => body.chosen);
  const pointed = useBody((body) => body.pointed);
  if (tape === null) return null;
  return (
    <>
      {tape.readings.map((reading) => {
        const key = tapeKey(reading.line);
        return <TapeLine key={key} reading={reading} isShown={key === chosen || key === pointed} />;
      })}
    </>
  );
}

interface TapeLineProps {
  readonly reading: TapeReading;
  readonly isShown: boolean;
}

function TapeLine({ reading, isShown }: TapeLineProps): ReactElement {
  const line = useMemo(() => thinLine(reading), [reading]);
  const ribbon = useMemo(() => (isShown ? ribbonGeometry(reading) : null), [reading, isShown]);
  const material = useMemo(() => ribbonMaterial(), []);
  useEffect(
    () => () => {
      line.geometry.dispose();
      line.material.dispose();
    },
    [line],
  );
  useEffect(() => () => ribbon?.dispose(), [ribbon]);
  useEffect(() => () => material.dispose(), [material]);
  return (
    <>
      {ribbon === null ? (
        <primitive object={line} />
      ) : (
        <mesh geometry={ribbon} material={material} name="tape" />
      )}
    </>
  );
}

function thinLine(reading: TapeReading): Line2 {
  const geometry = new LineGeometry();
  geometry.setPositions(liftedTape(reading));
  const material = new LineMaterial({ linewidth: THIN, toneMapped: false });
  material.color = screenColour('#22262a');
  return new Line2(geometry, material);
}
