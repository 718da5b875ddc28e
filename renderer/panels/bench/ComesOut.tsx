import { useState, type ReactElement } from 'react';
import { fixed } from '../../../core/sheet/number-format.ts';
import { comparableThickness } from '../../../core/sheet/derived-weight.ts';
import { nextReadingText } from '../../../core/words/card-text.ts';
import type { DerivedLabel } from '../../../core/sheet/derived-number.ts';
import { thicknessComparisonText } from '../../../core/words/card-words.ts';
import { STRIP_WORDS, type BenchStep } from '../../../core/words/bench-place-words.ts';
import { DIRECTIONS } from '../../store/bench-draft.ts';
import type { FittedFabric, PartNumbers } from '../../store/bench-store.ts';
import { useBench } from '../../table.ts';
import { BenchRemarks } from './BenchRemarks.tsx';
import { DerivedNumber } from './DerivedNumber.tsx';
import { TypedCurve } from './TypedCurve.tsx';

/** The numbers that each step gives, beside what stands in its own table. */
const STEP_NUMBERS: Readonly<Record<BenchStep, readonly DerivedLabel[]>> = {
  weigh: ['arealDensity'],
  thickness: ['thickness', 'bulkDensity'],
  stretch: ['coupling'],
  bend: ['bendingLength', 'bendingRigidity', 'overallRigidity'],
};

/** Beside the form: what the readings come to, each number with what it rests on. */
export function ComesOut(): ReactElement {
  const { numbers, outcome, isStale } = useBench(({ reading }) => reading);
  const step = useBench((bench) => bench.step);
  const fabric = outcome.kind === 'fabric' ? outcome.fabric : null;
  const [isAskedTurned, setTurned] = useState(false);
  const isTurned = isAskedTurned && fabric !== null;
  const turn = { isTurned, turn: () => setTurned(!isTurned) };
  return (
    <aside className={`comes-out ${isStale ? 'stale' : ''}`} aria-label="What comes out">
      <h2 className={step === 'stretch' ? 'hidden' : ''}>What comes out</h2>
      {!isTurned && step === 'stretch' && <TypedCurve />}
      {!isTurned &&
        (fabric === null ? (
          step !== 'stretch' && <PlainNumbers numbers={numbers} />
        ) : (
          <FabricNumbers fabric={fabric} step={step} />
        ))}
      {step === 'thickness' && fabric !== null && <UnlikeFeet fabric={fabric} />}
      <BenchRemarks turn={turn} />
    </aside>
  );
}

function FabricNumbers({
  fabric,
  step,
}: {
  readonly fabric: FittedFabric;
  readonly step: BenchStep;
}): ReactElement {
  const { card } = fabric;
  return (
    <>
      {step === 'stretch' && <Pulls fabric={fabric} />}
      <div>
        {card.numbers
          .filter(({ label }) => STEP_NUMBERS[step].includes(label))
          .map((number) => (
            <DerivedNumber key={number.id} number={number} />
          ))}
      </div>
      {step === 'stretch' && card.coupling !== null && <p>{nextReadingText(card.coupling.next)}</p>}
    </>
  );
}

/** Two thicknesses under unlike feet are not to be compared. */
function UnlikeFeet({ fabric }: { readonly fabric: FittedFabric }): ReactElement | null {
  const beside = useBench((bench) => bench.beside);
  if (beside === null) return null;
  const text = thicknessComparisonText(comparableThickness(footOf(fabric), footOf(beside.fabric)));
  return text === null ? null : <p>{text}</p>;
}

const footOf = ({ sheet }: FittedFabric): { thicknessPressure: number } => ({
  thicknessPressure: 1000 * sheet.thickness.pressureKPa,
});

function PlainNumbers({ numbers }: { readonly numbers: PartNumbers }): ReactElement {
  const { arealDensity, thickness, bendingRigidity } = numbers;
  return (
    <dl className="facts">
      <dt>Weight</dt>
      <dd>{arealDensity === null ? '–' : `${fixed(1000 * arealDensity, 1)}\u00a0g/m²`}</dd>
      <dt>Thickness</dt>
      <dd>{thickness === null ? '–' : `${fixed(1000 * thickness, 3)}\u00a0mm`}</dd>
      <dt>Stiffness in bending, warp · weft · bias</dt>
      <dd>
        {bendingRigidity === null
          ? '–'
          : `${DIRECTIONS.map((direction) => fixed(1e6 * bendingRigidity[direction], 1)).join(' · ')}\u00a0µN·m`}
      </dd>
    </dl>
  );
}

/** N per 50 mm of width, as the trade says it. */
const STRIP = 0.05;

function Pulls({ fabric }: { readonly fabric: FittedFabric }): ReactElement | null {
  const { strips } = fabric;
  if (strips === null) return null;
  const stated = strips.warp.modulus;
  return (
    <>
      <table className="sheet figures pulls">
        <caption>Pull of a 50 mm strip, N</caption>
        <thead>
          <tr>
            <th scope="col">at</th>
            {DIRECTIONS.map((direction) => (
              <th scope="col" key={direction}>
                {STRIP_WORDS[direction]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {stated.map(({ extension }, row) => (
            <tr key={extension}>
              <th scope="row">{fixed(100 * extension, 0)} %</th>
              {DIRECTIONS.map((direction) => {
                const { load, beyondReadings } = strips[direction].modulus[row]!;
                const text = fixed(load * STRIP, 2);
                return (
                  <td key={direction} className={beyondReadings ? 'soft' : ''}>
                    {beyondReadings ? `(${text})` : text}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
      {DIRECTIONS.some((direction) => strips[direction].modulus.some((at) => at.beyondReadings)) && (
        <p className="hint">In brackets: beyond the last reading.</p>
      )}
    </>
  );
}
