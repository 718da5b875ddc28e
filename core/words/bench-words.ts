import type { BenchFaults } from '../fault/bench-faults.ts';
import type { BenchFindings } from '../fault/bench-findings.ts';
import type { FaultWords, FindingWords } from './word-tables.ts';

/** At most `decimals`, without trailing zeros. */
const plain = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));
const newtons = (value: number): string => `${plain(value, 3)} N`;
const mm = (value: number): string => `${plain(value, 2)} mm`;
const percent = (value: number): string => `${plain(value, 1)} %`;
const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
/** `Warp` or, on the way back, `Warp return`. */
const curveName = (direction: string, branch: string): string =>
  branch === 'return' ? `${capital(direction)} return` : capital(direction);

/** What is said of readings that no fabric could have given. */
export const benchFaultWords: FaultWords<BenchFaults> = {
  'bench/too-few-readings': ({ direction, branch, count, least }) => ({
    what: `${curveName(direction, branch)}: ${count} force ${count === 1 ? 'reading' : 'readings'} beyond 0 % extension; at least ${least} are needed.`,
    remedy: 'Read the force at more extensions, for instance every 10 %.',
  }),
  'bench/reading-twice': ({ direction, branch, extensionPercent }) => ({
    what: `${curveName(direction, branch)}: ${percent(extensionPercent)} extension is listed twice.`,
    remedy: 'Keep one reading per extension; give the mean where strips were repeated.',
  }),
  'bench/no-force': ({ direction, branch, extensionPercent }) => ({
    what: `${curveName(direction, branch)}: the force is 0 N up to the last reading at ${percent(extensionPercent)}.`,
    remedy: 'Check that the load cell was on and that the forces stand second in each pair, in N.',
  }),
  'bench/stretched-too-little': ({ direction, branch, extensionPercent, leastPercent }) => ({
    what: `${curveName(direction, branch)} was pulled to ${percent(extensionPercent)} only; at least ${percent(leastPercent)} is needed.`,
    remedy:
      'Pull the strip beyond the stretch that the garment will see; extensions are in percent, not as a ratio.',
  }),
  'bench/force-falls': (facts) => ({
    what: `${fallText(facts)}; no rising curve comes closer than ${percent(facts.repairPercent)} of that force.`,
    remedy: 'Check for a slipped clamp or a mistyped number and pull a fresh strip.',
  }),
  'bench/width-contradicts': ({ direction, extensionPercent, widthMm, neighboursMm }) => ({
    what: `${capital(direction)} width at ${percent(extensionPercent)} is ${mm(widthMm)}, but the other widths ask for ${mm(neighboursMm)}.`,
    remedy: 'Read the width again at mid-length, or leave that reading out.',
  }),
  'bench/width-start-differs': ({ direction, stripMm, widthMm }) => ({
    what: `${capital(direction)} width at 0 % is ${mm(widthMm)}, but the strip is said to be ${mm(stripMm)} wide (stretch.widthMm).`,
    remedy: 'Give the width of the unstretched strip in both places; forces are taken per that width.',
  }),
  'bench/gains-no-area': ({ warpContraction, weftContraction, atPercent }) => ({
    what: `The widths imply a fabric that gains nothing in area: at ${percent(atPercent)} extension the warp strip narrows by ${plain(warpContraction, 2)} and the weft strip by ${plain(weftContraction, 2)} of its stretch (in logarithms), together more than 0.9.`,
    remedy: 'Check that the width was read at mid-length, away from the clamps, and is the whole width.',
  }),
  'bench/unstable': ({ sharePercent, couplingPercent }) => ({
    what: `Warp, weft and widths together describe a fabric that would collapse under tension: ${percent(sharePercent)} of the measured range, even with the coupling lowered to ${percent(couplingPercent)} of what the widths ask for.`,
    remedy: 'Measure the widths of both strips again, above all at low load.',
  }),
  'bench/bias-contradicts': ({ extensionPercent, forceN, leastForceN }) => ({
    what: `Bias reading at ${percent(extensionPercent)} is ${newtons(forceN)}, but warp, weft and their narrowing alone would already pull ${newtons(leastForceN)}.`,
    remedy:
      'Check that the bias strip was cut at 45 degrees and as wide as the others, and read the warp and weft widths again.',
  }),
  'bench/return-above-load': ({ direction, extensionPercent, returnN, loadN }) => ({
    what: `${capital(direction)} return at ${percent(extensionPercent)} is ${newtons(returnN)}, above the ${newtons(loadN)} on the way out.`,
    remedy: 'A strip cannot give back more than it took: check whether load and return were exchanged.',
  }),
  'bench/return-beyond-load': ({ direction, extensionPercent, loadPercent }) => ({
    what: `${capital(direction)} return begins at ${percent(extensionPercent)}, beyond the last load reading at ${percent(loadPercent)}.`,
    remedy: 'Give the load reading at the peak from which the strip was let back.',
  }),
  'bench/held-below-free': ({ direction, extensionPercent, heldN, freeN }) => ({
    what: `With its width held, the ${direction} strip pulls ${newtons(heldN)} at ${percent(extensionPercent)}, less than the ${newtons(freeN)} of the free strip.`,
    remedy:
      'Holding the width can only add force: check which curve is which, and that both strips are equally wide.',
  }),
  'bench/masses-disagree': ({ direction, massG, meanG, differencePercent }) => ({
    what: `The ${direction} strip weighs ${plain(massG, 3)} g, ${percent(differencePercent)} away from the mean of all strips (${plain(meanG, 3)} g).`,
    remedy:
      'Check strip.lengthMm and strip.widthMm; a strip cut while stretched comes out too light. Cut and weigh again.',
  }),
  'bench/denser-than-fibre': ({ densityKgM3, fibreKgM3, arealDensityGM2, thicknessMm }) => ({
    what: `${plain(arealDensityGM2, 1)} g/m2 in ${mm(thicknessMm)} is ${plain(densityKgM3, 0)} kg/m3, denser than solid fibre (${fibreKgM3} kg/m3).`,
    remedy: 'Check the thickness (in mm), the strip size (in mm) and the masses (in g).',
  }),
  'bench/overhang-too-long': ({ direction, overhangMm, lengthMm }) => ({
    what: `The ${direction} overhang is ${mm(overhangMm)}, longer than the strip of ${mm(lengthMm)}.`,
    remedy: 'Give the length that hangs over the edge, in mm, not the length left on the table.',
  }),
  'bench/loop-height': ({ direction, heightMm, leastMm, mostMm }) => ({
    what: `The ${direction} heart loop is said to hang ${mm(heightMm)}; a strip of this length hangs between ${mm(leastMm)} (no weight) and ${mm(mostMm)} (no stiffness).`,
    remedy:
      'Give the height from the clamps to the lowest point of the loop, and the length of the strip between the clamps.',
  }),
};

/** What is said of readings that leave something in doubt. */
export const benchFindingWords: FindingWords<BenchFindings> = {
  'bench/width-not-measured': ({ direction }) =>
    `Width under load not measured on the ${direction} strip: a typical knit width is assumed. Tension in a panel held lengthwise may be 18 % lower to 10 % higher, crosswise load 41 % lower to 42 % higher (of the lengthwise).`,
  'bench/width-smoothed': ({ direction, extensionPercent, widthMm, usedMm }) =>
    `${capital(direction)} width at ${percent(extensionPercent)} (${mm(widthMm)}) contradicts its neighbours; used ${mm(usedMm)}.`,
  'bench/width-above-start': ({ direction, extensionPercent, widthMm, startMm }) =>
    `${capital(direction)} width at ${percent(extensionPercent)} (${mm(widthMm)}) is above the start width (${mm(startMm)}); taken as not narrowed.`,
  'bench/force-repaired': (facts) => `${fallText(facts)}. Repaired by ${percent(facts.repairPercent)}.`,
  'bench/force-smoothed': ({ direction, branch, residualPercent }) =>
    `${curveName(direction, branch)} readings were smoothed by a cubic; it misses them by ${percent(residualPercent)} (root mean square).`,
  'bench/pre-tension': ({ direction, branch, forceN, peakN }) =>
    `${curveName(direction, branch)} carries ${newtons(forceN)} at 0 % extension (peak ${newtons(peakN)}): taken as pre-tension, the curve starts from 0 N. Read the gauge length without load if the fabric allows it.`,
  'bench/slack-run-in': ({ direction, atPercent }) =>
    `The ${direction} strip hardly pulls in its first 5 %: stiffness and narrowing are compared at ${percent(atPercent)} instead, and crosswise tension is less certain.`,
  'bench/force-unusual': ({ direction, forceN, atPercent }) =>
    `${capital(direction)} pulls ${newtons(forceN)} per 50 mm at ${percent(atPercent)}; stretch fabrics mostly give 0.5 to 15 N. Check the units (N, mm, percent).`,
  'bench/widths-disagree': ({ factor }) =>
    `Warp and weft widths disagree by a factor ${plain(factor, 2)}: tension in a panel stretched both ways is less certain. Read the widths again at low load to narrow it.`,
  'bench/widths-contradict': ({ factor }) =>
    `Warp and weft widths contradict each other (factor ${plain(factor, 1)}); the smaller is used. Measure the width again at low load.`,
  'bench/coupling-lowered': ({ couplingPercent, sharePercent }) =>
    `The coupling of warp and weft was lowered to ${percent(couplingPercent)} of what the widths ask for, so that the fabric stays stable under tension (before: ${percent(sharePercent)} of the range unstable). Read the widths again.`,
  'bench/bias-missed': ({ branch, extensionPercent, forceN, lawN }) =>
    `${curveName('bias', branch)} at ${percent(extensionPercent)}: read ${newtons(forceN)}, the fitted fabric pulls ${newtons(lawN)}. Check the 45 degree cut.`,
  'bench/bias-width-differs': ({ ratio, residualPercent }) =>
    `The bias strip’s width asks for ${plain(ratio, 2)} times the coupling that warp and weft widths give (missing the bias force by ${percent(residualPercent)}): tension in a panel stretched both ways lies between the two.`,
  'bench/growth': ({ direction, percent: growth }) =>
    `The ${direction} strip has grown by ${percent(growth)} when let back to no force.`,
  'bench/return-incomplete': ({ missing }) =>
    `Return readings are missing for ${missing}: the way back is left out; give all three directions to show it.`,
  'bench/masses-differ': ({ direction, massG, meanG, differencePercent }) =>
    `The ${direction} strip weighs ${plain(massG, 3)} g, ${percent(differencePercent)} away from the mean of all strips (${plain(meanG, 3)} g). Check the cut.`,
  'bench/density-unusual': ({ densityKgM3 }) =>
    `Mass over thickness is ${plain(densityKgM3, 0)} kg/m3; knits mostly lie between 250 and 600. Check thickness and strip size.`,
};

/** `Warp reading at 30 % (12.1 N) is below 20 % (12.6 N)`. */
function fallText(facts: BenchFindings['bench/force-repaired']): string {
  const { direction, branch, extensionPercent, forceN, previousN, previousPercent } = facts;
  return `${curveName(direction, branch)} reading at ${percent(extensionPercent)} (${newtons(forceN)}) is below ${percent(previousPercent)} (${newtons(previousN)})`;
}
