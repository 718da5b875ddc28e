import type { WornFindings } from '../fault/worn-findings.ts';
import type { FindingWords } from './word-tables.ts';

const percent = (share: number): string => `${share < 10 ? share.toFixed(1) : share.toFixed(0)} %`;

/** What is said of a garment as worn. */
export const wornFindingWords: FindingWords<WornFindings> = {
  'worn/not-at-rest': ({ residual, tolerance }) =>
    `NOT AT REST: unbalanced force is ${residual.toExponential(1)} of the contact force (${tolerance.toExponential(0)} is asked). Do not use these numbers.`,
  'worn/return-not-measured': ({ fabric }) =>
    `No return curve was read for ${fabric}; the load curve is used, which presses harder.`,
  'worn/band-wide': ({ fabric, low, high }) =>
    `How warp and weft of ${fabric} pull together is known only between ${low.toFixed(0)} and ${high.toFixed(0)} N/m, and how the garment would sit at either end was not found: the band of a number holds the shape shown only. A strip pulled at held width would settle it.`,
  'worn/beyond-readings': ({ sharePercent }) =>
    `${percent(sharePercent)} of the cloth is stretched beyond the last bench reading: tension there is extrapolated.`,
  'worn/slack': ({ sharePercent }) =>
    `${percent(sharePercent)} of the cloth is slack or sheared into wrinkles: it carries nothing across them.`,
  'worn/off-skin': ({ sharePercent, largestGapMm }) =>
    `${percent(sharePercent)} bridges off the skin, ${largestGapMm.toFixed(1)} mm at most.`,
  'worn/pinched': ({ areaCm2, lowMm, highMm }) =>
    `${areaCm2.toFixed(0)} cm² is pinched between skin and skin (${lowMm.toFixed(0)} to ${highMm.toFixed(0)} mm up): read no pressure there.`,
  'worn/layer-on-bridge': ({ sharePercent, largestGapMm }) =>
    `${percent(sharePercent)} of the outer layer’s pressure falls where the inner layer stands off the skin (by ${largestGapMm.toFixed(1)} mm at most): how it pushes the inner layer in there is left out.`,
  'worn/layers-not-settled': ({ changePercent }) =>
    `The two layers had not quite shared out the skin’s give: the last round still changed the pressure by ${percent(changePercent)}.`,
  'worn/packed': ({ sharePercent }) =>
    `${percent(sharePercent)} of the cloth is gathered into a heap of folds: it has ridden up or rolled. Read nothing off those places.`,
  'worn/hem-moves': ({ hem, way, shiftMm, friction }) =>
    `${hem === 'upper' ? 'Upper' : 'Lower'} hem ${way === 'up' ? 'rides up' : 'slides down'} ${shiftMm.toFixed(0)} mm at friction ${friction}.`,
  'worn/flesh-bracket': ({ poisson, skin }) =>
    `Give and bulge are for flesh of Poisson’s ratio ${poisson} under skin that ${skin === 'slides' ? 'slides' : 'is held'}. Real flesh lies between 0.45 and 0.49 and between sliding and held skin: run the other ends too before you trust a bulge.`,
  'worn/frictionless': ({ shiftMm }) =>
    `Friction is 0 (0.01 is used, so that it does not creep for ever): nothing but its shape holds the garment, and it has slid by up to ${shiftMm.toFixed(0)} mm from where it was laid.`,
  'worn/flesh-out-of-range': ({ depthPercent, pressurePercent }) =>
    `The flesh is pressed in by up to ${percent(depthPercent)} of its thickness, under ${percent(pressurePercent)} of its modulus: beyond 15 % and 40 % the figures of give and bulge are upper bounds, since real flesh stiffens more.`,
  'worn/flesh-too-deep': ({ depthPercent, mostPercent }) =>
    `The flesh would be pressed in by ${percent(depthPercent)} of its thickness; beyond ${percent(mostPercent)} give and bulge are not to be trusted. Check tissue depth and modulus, or take a looser garment.`,
};
