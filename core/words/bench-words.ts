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
      extensionPercent < 3
        ? 'These look like ratios (0.8 for 80 %) or fractions of a millimetre read as percent: check the unit of extension.'
        : 'Pull the strip beyond the stretch that the garment will see, and check the unit of extension.',
  }),
  'bench/extension-too-large': ({ direction, branch, extensionPercent, mostPercent }) => ({
    what: `${curveName(direction, branch)} is said to be stretched by ${percent(extensionPercent)}; no fabric reaches ${percent(mostPercent)}.`,
    remedy:
      'These look like percent read as ratios, or like lengths read as percent: check the unit of extension and the gauge length.',
  }),
  'bench/force-negative': ({ direction, branch, extensionPercent, forceN, peakN }) => ({
    what: `${curveName(direction, branch)}: the force at ${percent(extensionPercent)} is ${newtons(forceN)}, far below nothing (peak ${newtons(peakN)}).`,
    remedy: 'Check the sign of the force and that the load cell was set to zero with the strip unloaded.',
  }),
  'bench/grip-slip': ({ direction, branch, specimen, extensionPercent, forceN, previousN, dropPercent }) => ({
    what: `${curveName(direction, branch)}, specimen ${specimen}: the force drops by ${percent(dropPercent)} at ${percent(extensionPercent)}, from ${newtons(previousN)} to ${newtons(forceN)}.`,
    remedy:
      'The strip has slipped in the grips, or yarns broke: leave this specimen out and pull a fresh one with firmer or padded grips.',
  }),
  'bench/force-falls': (facts) => ({
    what: `${fallText(facts)}; no rising curve comes closer than ${percent(facts.repairPercent)} of that force.`,
    remedy: 'Check for a strip that slipped in the grips or a mistyped number, and pull a fresh strip.',
  }),
  'bench/width-contradicts': ({ direction, extensionPercent, widthMm, neighboursMm }) => ({
    what: `${capital(direction)} width at ${percent(extensionPercent)} is ${mm(widthMm)}, but the other widths ask for ${mm(neighboursMm)}.`,
    remedy: 'Read the width again at mid-length, or leave that reading out.',
  }),
  'bench/width-too-small': ({ direction, extensionPercent, widthMm, startMm }) => ({
    what: `${capital(direction)} width at ${percent(extensionPercent)} is ${mm(widthMm)}, of a strip ${mm(startMm)} wide; no fabric narrows to a fifth.`,
    remedy: 'This looks like cm, a ratio or percent read as mm: check the unit of the widths.',
  }),
  'bench/width-start-differs': ({ direction, stripMm, widthMm }) => ({
    what: `${capital(direction)} width at 0 % is ${mm(widthMm)}, but the strip is said to be ${mm(stripMm)} wide (stretch.widthMm).`,
    remedy:
      'Give the width of the unstretched strip in both places, in one unit (a start of 100 or 1 looks like percent or a ratio); forces are taken per that width.',
  }),
  'bench/gains-no-area': ({ warpContraction, weftContraction, atPercent }) => ({
    what: `The widths imply a fabric that gains nothing in area: at ${percent(atPercent)} extension the warp strip narrows by ${plain(warpContraction, 2)} and the weft strip by ${plain(weftContraction, 2)} of its stretch (in logarithms), together more than 0.9.`,
    remedy: 'Check that the width was read at mid-length, away from the clamps, and is the whole width.',
  }),
  'bench/unstable': ({ sharePercent, couplingPercent, suspect }) => ({
    what: `Warp, weft and widths together describe a fabric that would collapse under tension: ${percent(sharePercent)} of the measured range, even with the coupling lowered to ${percent(couplingPercent)} of what the widths ask for.`,
    remedy:
      suspect === null
        ? 'Measure the widths of both strips again, above all at low load.'
        : `Look at the ${suspect.direction} force (specimen ${suspect.specimen}) at ${percent(suspect.extensionPercent)}: it steps as it does when a strip slips in the grips. Pull a fresh strip; if it stands, measure the widths again.`,
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
  'bench/denser-than-fibre': ({ densityKgM3, fibreKgM3, arealDensityGM2, thicknessMm, looksLike }) => ({
    what: `${plain(arealDensityGM2, 1)} g/m2 in ${mm(thicknessMm)} is ${plain(densityKgM3, 0)} kg/m3, denser than solid fibre (${fibreKgM3} kg/m3).`,
    remedy: `${slip(looksLike)}Check the thickness (in mm), the strip size (in mm) and the masses (in g).`,
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
    `Width under load not measured on the ${direction} strip: a typical knit width is assumed. On 12 measured knits that showed the tension along a panel of held width up to 23 % too low or 4 % too high, and the tension across it up to 47 % too low or 13 % too high (of the tension along). Read the width at 0, 10, 20 and 40 %.`,
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
  'bench/force-unusual': ({ direction, forceN, atPercent, looksLike }) =>
    `${capital(direction)} pulls ${newtons(forceN)} per 50 mm at ${percent(atPercent)}; stretch fabrics mostly give 0.5 to 15 N at 40 %. ${slip(looksLike)}Check the unit of force and the strip’s width.`,
  'bench/widths-disagree': ({ factor }) =>
    `Warp and weft widths disagree by a factor ${plain(factor, 2)}: tension in a panel stretched both ways is less certain. Read the widths again at low load to narrow it.`,
  'bench/widths-contradict': ({ factor }) =>
    `Warp and weft widths contradict each other (factor ${plain(factor, 1)}); the smaller is used. Measure the width again at low load.`,
  'bench/coupling-lowered': ({ branch, couplingPercent, sharePercent }) =>
    `On ${branch} the coupling of warp and weft was lowered to ${percent(couplingPercent)} of what the widths ask for, so that the fabric stays stable under tension (before: ${percent(sharePercent)} of the range unstable). Read the widths again.`,
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
  'bench/mass-unusual': ({ massG, arealDensityGM2, looksLike }) =>
    `A strip of ${plain(massG, 4)} g makes ${plain(arealDensityGM2, 1)} g/m2; stretch fabrics mostly weigh 60 to 700. ${slip(looksLike)}Check the masses (in g) and the strip size (in mm).`,
  'bench/thickness-pressure': ({ standard, pressureKPa, known }) =>
    `${standard} presses with ${known.map((kPa) => plain(kPa, 2)).join(' or ')} kPa, not ${plain(pressureKPa, 2)} kPa: thickness read under another pressure is another number. Check the foot’s pressure, or leave the standard out.`,
  'bench/mass-scatter': ({ direction, massG, scatterPercent, count }) =>
    `The ${count} ${direction === 'together' ? 'readings of three strips together' : `${direction} strips`} scatter by ${percent(scatterPercent)} in mass (standard deviation, mean ${plain(massG, 3)} g). Check the cut; a strip cut while stretched comes out too light.`,
  'bench/thickness-scatter': ({ thicknessMm, scatterPercent, count }) =>
    `The ${count} thickness readings scatter by ${percent(scatterPercent)} (standard deviation, mean ${mm(thicknessMm)}). Measure away from creases and edges, and wait until the foot has settled.`,
  'bench/bending-scatter': ({ direction, scatterPercent, count }) =>
    `The ${count} ${direction} bending readings scatter by ${percent(scatterPercent)} (standard deviation), which is three times as much in rigidity. Let the strips relax flat, or use the heart loop where they curl.`,
  'bench/force-scatter': ({ direction, branch, extensionPercent, scatterPercent, count }) =>
    `${curveName(direction, branch)}: the ${count} strips scatter by ${percent(scatterPercent)} at ${percent(extensionPercent)} (standard deviation); strips of one cloth mostly stay within 10 %. Look for a strip of another direction, another width or one that slipped; the mean is used.`,
  'bench/width-scatter': ({ direction, extensionPercent, widthMm, scatterMm }) =>
    `${capital(direction)} widths scatter by ${mm(scatterMm)} at ${percent(extensionPercent)} (standard deviation, mean ${mm(widthMm)}). Read them at mid-length, square to the strip; the mean is used.`,
  'bench/repeats-end-early': ({ direction, branch, shortestPercent, longestPercent }) =>
    `${curveName(direction, branch)}: one strip ends at ${percent(shortestPercent)}, another at ${percent(longestPercent)}; the mean ends with the first. Leave a strip out that slipped or broke.`,
  'bench/force-jumps': ({ direction, branch, specimen, extensionPercent }) =>
    `${curveName(direction, branch)}, specimen ${specimen}: the force steps at ${percent(extensionPercent)} as it does when a strip slips in the grips and catches, or when one number is mistyped. Look at that reading; it is used as it stands.`,
  'bench/slack-start': ({ direction, extensionPercent }) =>
    `The ${direction} strip carries nothing up to ${percent(extensionPercent)}: it hung slack in the grips, so stretch is counted from there. Mount it just straight, or under the standard’s pre-tension.`,
  'bench/greatest-stretch-not-said': ({ found }) =>
    `The direction of greatest stretch is not stated; by these curves it is the ${found}, but they cannot tell whether strips were swapped. Pull the cloth by hand and state it.`,
  'bench/greatest-stretch-differs': ({ said, found, saidPercent, foundPercent, forceN }) =>
    `Greatest stretch is said to be along the ${said}, but at ${newtons(forceN)} the ${said} strip stretches by ${percent(saidPercent)} and the ${found} strip by ${percent(foundPercent)}. Check whether the strips were swapped.`,
  'bench/bias-stiffest': ({ extensionPercent, biasN, warpN, weftN }) =>
    `At ${percent(extensionPercent)} the bias strip pulls ${newtons(biasN)}, more than both warp (${newtons(warpN)}) and weft (${newtons(weftN)}); cut at 45 degrees a knit mostly gives way. Check whether strips were swapped.`,
  'bench/return-without-peak': ({ direction, extensionPercent, returnN, loadN }) =>
    `${capital(direction)} return begins at ${percent(extensionPercent)} with ${newtons(returnN)}, well below the ${newtons(loadN)} on the way out: the reading at the peak is missing, or the strip had relaxed. Add the peak to the return; until then the power loss is too high.`,
  'bench/return-unstable': ({ sharePercent, couplingPercent }) =>
    `The way back is left out: its readings describe a fabric that would collapse under tension (${percent(sharePercent)} of the range, even with the coupling at ${percent(couplingPercent)}). Mostly the return falls to nothing too flatly or in steps: read it at more extensions near its end.`,
  'bench/first-cycle': () =>
    'These are readings of the first cycle; a worn fabric has been stretched before and pulls less. Standards take a later one (the third in ASTM D4964, up to the fifth in ISO 20932-1).',
  'bench/band-end-moved': ({ branch, end, wantedPercent, usedPercent }) =>
    `The ${end} end of the ${branch} coupling’s band lies at ${percent(usedPercent)} of the one shown instead of ${percent(wantedPercent)}: beyond, the fabric would not be stable under tension.`,
};

/** The likely slip of unit, as a sentence to go before another. */
function slip(looksLike: string | null): string {
  return looksLike === null ? '' : `This looks like ${looksLike}. `;
}

/** `Warp reading at 30 % (12.1 N) is below 20 % (12.6 N)`. */
function fallText(facts: BenchFindings['bench/force-repaired']): string {
  const { direction, branch, extensionPercent, forceN, previousN, previousPercent } = facts;
  return `${curveName(direction, branch)} reading at ${percent(extensionPercent)} (${newtons(forceN)}) is below ${percent(previousPercent)} (${newtons(previousN)})`;
}
