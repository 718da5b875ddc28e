/** A coefficient of friction between cloth and skin, as a study may name it instead of a number. */
export interface SkinFriction {
  /** Coulomb's coefficient, static. */
  readonly coefficient: number;
  /** What was met on people. */
  readonly low: number;
  readonly high: number;
  /** Where it is from, for whoever reads the number. */
  readonly source: string;
}

/**
 * Friction of cloth on skin, dry and damp. Neither was measured on the fabric at hand: fibre, knit and skin change it, and
 * people differ by a factor of three. Both stand at the low end: a hem that holds with them holds on more skins.
 *
 * Dry, cotton: static 0.31 ± 0.07 on the forearm, 0.90 ± 0.19 on the chest. Damp: sweat raised it by 2 to 5 times on forearms;
 * taken as twice the dry forearm, up to five times.
 *
 * @see Temel, Johnson & Lloyd, Tribology Letters 70 (2022), cotton on the skin of men and women (read); the factors of
 *   sweat from the abstract of a conference paper on a friction probe (read as an abstract only).
 */
export const SKIN_FRICTION: Readonly<Record<'dry' | 'damp', SkinFriction>> = {
  dry: {
    coefficient: 0.3,
    low: 0.24,
    high: 1.1,
    source: 'cotton on dry skin, forearm 0.31, chest 0.90 (Temel, Johnson & Lloyd 2022)',
  },
  damp: {
    coefficient: 0.6,
    low: 0.6,
    high: 1.55,
    source: 'twice that on the dry forearm; sweat raises it 2 to 5 times',
  },
};
