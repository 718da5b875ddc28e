/** Where a formula or a method of the bench comes from. */
export interface Source {
  /** `ISO 3801:1977` */
  readonly name: string;
  /** Method, option, clause or equation; null where it is not known. */
  readonly part: string | null;
  /**
   * `memory`: the edition was not seen; `excerpt`: parts of it were seen in public digests; `arithmetic`: no source is
   * needed beside the formula.
   */
  readonly seen: 'memory' | 'excerpt' | 'arithmetic';
}

const memory = (name: string, part: string | null = null): Source => ({ name, part, seen: 'memory' });
const excerpt = (name: string, part: string | null = null): Source => ({ name, part, seen: 'excerpt' });

/**
 * What the bench's numbers rest on. Editions marked `memory` are to be looked up before they are quoted to a client.
 */
export const BENCH_SOURCES = {
  massPieces: memory('ISO 3801:1977', 'method 5'),
  massDies: excerpt('ASTM D3776/D3776M-20', 'option C, clause 9'),
  thicknessIso: memory('ISO 5084:1996', 'foot of 2000 mm², 1 kPa or 0.1 kPa'),
  thicknessAstm: excerpt('ASTM D1777', 'option 1: foot of 28.7 mm, 4.14 kPa for most wovens and knits'),
  quotient: { name: 'Mass over thickness', part: null, seen: 'arithmetic' },
  cantilever: memory('ISO 9073-7:1995, BS 3356:1990, ASTM D1388 option A', 'half the overhang at 41.5°'),
  elastica: memory('Bickley, Phil. Mag. 17 (1934) 603', 'the heavy elastica, solved exactly'),
  heartLoop: memory('ASTM D1388', 'option B, heart loop'),
  peirce: memory('Peirce, J. Text. Inst. 21 (1930) T377'),
  stripTest: excerpt('ISO 20932-1:2018', 'method A, strip'),
  loopTest: excerpt('ASTM D4964', 'loop: the machine pulls both legs'),
  loadLimit: excerpt('EN 14704-1 (now ISO 20932-1)', '4 N/cm, weft knit with more than 5 % elastane'),
  hysteresis: { name: 'Areas under load and return by trapezoid', part: null, seen: 'arithmetic' },
  quotientOfForces: { name: 'Forces at one extension', part: null, seen: 'arithmetic' },
  deformation: memory(
    'ISO 20932-1:2018',
    'permanent deformation C = 100 (Q − P) / P; here read on the way back, without rest',
  ),
  reciprocity: memory('Lekhnitskii, Theory of Elasticity of an Anisotropic Body, 1963', 'reciprocity'),
  couplingBand: {
    name: 'Snugfield',
    part: 'band of the coupling, tried on published biaxial rubber and open knit strips',
    seen: 'arithmetic',
  },
} as const satisfies Record<string, Source>;
