import type { ReactElement } from 'react';
import { fixed } from '../../../core/sheet/number-format.ts';
import { nextReadingText } from '../../../core/words/card-text.ts';
import { STRIP_WORDS } from '../../../core/words/bench-place-words.ts';
import { DIRECTIONS } from '../../store/bench-draft.ts';
import type { FittedFabric, PartNumbers } from '../../store/bench-store.ts';
import { useBench } from '../../table.ts';
import { BenchRemarks } from './BenchRemarks.tsx';

/** Beside the form: what the readings come to. */
export function ComesOut(): ReactElement {
  const { numbers, outcome, isStale } = useBench(({ reading }) => reading);
  return (
    <aside className={`comes-out ${isStale ? 'stale' : ''}`} aria-label="What comes out">
      <h2>What comes out</h2>
      <PlainNumbers numbers={numbers} />
      {outcome.kind === 'fabric' && <Pulls fabric={outcome.fabric} />}
      <BenchRemarks />
    </aside>
  );
}

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
  const { strips, card } = fabric;
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
      {card.coupling !== null && (
        <p className="coupling">
          Warp on weft: {fixed(card.coupling.band.shown, 0)}&nbsp;N/m, between{' '}
          {fixed(card.coupling.band.low, 0)} and {fixed(card.coupling.band.high, 0)}.{' '}
          {nextReadingText(card.coupling.next)}
        </p>
      )}
    </>
  );
}
