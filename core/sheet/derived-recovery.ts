import type { ForceReading } from '../fabric/bench-readings.ts';
import type { Direction, Fabric } from '../fabric/fabric.ts';
import { areaTo, forceAt } from '../fabric/hysteresis.ts';
import type { CurveEvidence, StripEvidence } from '../fabric/strip-evidence.ts';
import { percentFromRatio } from '../units/units.ts';
import { BENCH_SOURCES } from './bench-sources.ts';
import { derivedNumber, givenInput, written, type DerivedNumber, type Writing } from './derived-number.ts';
import { extensionText, tensionText } from './derived-tension.ts';
import { fixed } from './number-format.ts';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
/** Work per area of unstretched cloth. */
const WORK: Writing = { unit: 'J/m²', fromSi: (value) => value, decimals: 2 };
/** The extension at which the loss by force is told, ratio. */
const FORCE_LOSS_AT = 0.4;
const SLACK = 1e-9;

type Strips = Readonly<Record<Direction, StripEvidence>>;

/** `21.4 %` */
const share = (ratio: number): string => `${fixed(percentFromRatio(ratio), 1)}\u00a0%`;

/** What the strips keep of work and force, and by how much they have grown, where they were let back. */
export function derivedRecovery(fabric: Fabric, strips: Strips): DerivedNumber[] {
  return [
    ...DIRECTIONS.flatMap((direction) => lossByEnergy(direction, strips[direction])),
    ...DIRECTIONS.flatMap((direction) => lossByForce(direction, strips[direction])),
    ...growth(fabric),
  ];
}

/** @see ISO 20932-1 (hysteresis loop); W by trapezoid over the mean readings. */
function lossByEnergy(direction: Direction, { load, return: back, loss }: StripEvidence): DerivedNumber[] {
  if (loss === null || back === null) return [];
  return [
    derivedNumber({
      label: 'lossByEnergy',
      direction,
      value: share(loss.byEnergy),
      amount: loss.byEnergy,
      formula: '100 (W₁ − W₂) / W₁',
      inputs: [
        givenInput({ symbol: 'W₁', what: 'workTaken', direction }, written(workTo(load, loss.peak), WORK)),
        givenInput({ symbol: 'W₂', what: 'workReturned', direction }, written(workTo(back, loss.peak), WORK)),
        givenInput({ symbol: '', what: 'peakStretch', direction }, extensionText(loss.peak)),
      ],
      sources: [BENCH_SOURCES.hysteresis],
    }),
  ];
}

/** At 40 %, where the strip was let back from beyond it. */
function lossByForce(direction: Direction, { load, return: back, loss }: StripEvidence): DerivedNumber[] {
  const at = loss?.byForce.find(({ extension }) => Math.abs(extension - FORCE_LOSS_AT) < SLACK);
  if (loss === null || back === null || at === undefined) return [];
  return [
    derivedNumber({
      label: 'lossByForce',
      direction,
      at: extensionText(at.extension),
      value: share(at.loss),
      amount: at.loss,
      formula: '100 (F₁ − F₂) / F₁',
      inputs: [
        givenInput(
          { symbol: 'F₁', what: 'tensionOut', direction },
          tensionText(tensionAt(load, at.extension)),
        ),
        givenInput(
          { symbol: 'F₂', what: 'tensionBack', direction },
          tensionText(tensionAt(back, at.extension)),
        ),
        givenInput({ symbol: '', what: 'peakStretch', direction }, extensionText(loss.peak)),
      ],
      sources: [BENCH_SOURCES.quotientOfForces],
    }),
  ];
}

/** Extension at which a strip that is let back ceases to pull. */
function growth({ findings }: Fabric): DerivedNumber[] {
  return findings.flatMap((finding) => {
    if (finding.code !== 'bench/growth') return [];
    const direction = DIRECTIONS.find((one) => one === finding.facts.direction);
    if (direction === undefined) return [];
    const value = `${fixed(finding.facts.percent, 1)}\u00a0%`;
    return [
      derivedNumber({
        label: 'growth',
        direction,
        value,
        amount: finding.facts.percent / 100,
        formula: 'C = 100 (Q − P) / P',
        inputs: [givenInput({ symbol: 'C', what: 'ceasesToPull', direction }, value)],
        sources: [BENCH_SOURCES.deformation],
      }),
    ];
  });
}

/** Tension of the mean readings at an extension, straight between them, N/m. */
const tensionAt = (curve: CurveEvidence, at: number): number => forceAt(perWidth(curve), at);

/** Area under the mean readings from no extension to `peak`, straight between them, J/m^2. */
const workTo = (curve: CurveEvidence, peak: number): number => areaTo(perWidth(curve), peak);

/** The mean readings with force per width in place of force. */
const perWidth = ({ readings }: CurveEvidence): ForceReading[] =>
  readings.map(({ extension, tension }) => ({ extension, force: tension }));
