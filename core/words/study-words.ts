import { SKIN_FRICTION } from '../study/skin-friction.ts';
import type { FleshChoice, FrictionFrom, Study } from '../study/study.ts';

/** Where a friction coefficient is from, in a word or two beside the number. */
export const FRICTION_FROM_WORDS: Readonly<Record<FrictionFrom, string>> = {
  dry: 'dry skin',
  damp: 'damp skin',
  typed: 'as typed',
};

/** `Friction 0.3, dry skin: ...`: the coefficient with its source. */
export function frictionWords({
  friction,
  frictionFrom = 'typed',
}: Pick<Study, 'friction' | 'frictionFrom'>): string {
  const shown = `Friction ${friction}, ${FRICTION_FROM_WORDS[frictionFrom]}`;
  if (frictionFrom === 'typed') return `${shown}.`;
  const { low, high, source } = SKIN_FRICTION[frictionFrom];
  return `${shown}: ${source}; ${low} to ${high} on people. Not measured on this fabric.`;
}

/** What friction counts from; said once. */
export const DONNING =
  'Friction counts from where the garment was laid: pulled up from below or down from above it will sit a little otherwise.';

/** `Flesh: foundation ...` or the layer with the ends of its bracket. */
export function fleshWords(flesh: FleshChoice = { kind: 'foundation' }): string {
  if (flesh.kind === 'foundation') return 'Flesh: foundation, each place gives on its own, no bulge.';
  const skin = flesh.skin === 'slides' ? 'skin slides under the cloth' : 'skin is held by the cloth';
  return `Flesh: layer that bulges beside the cloth, Poisson’s ratio ${flesh.poisson}, ${skin}; real flesh lies between 0.45 and 0.49 and between sliding and held skin.`;
}
