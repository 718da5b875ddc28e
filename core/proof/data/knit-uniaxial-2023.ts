/** One knit pulled along one of its directions. */
export interface KnitPull {
  /** `..._X` or `...x` along the courses, `..._Y` or `...y` along the wales. */
  readonly sample: string;
  /** Width at the clamp, m. */
  readonly clampWidth: number;
  /** Force in N, stretch ratio, width ratio. */
  readonly readings: readonly (readonly [force: number, stretch: number, width: number])[];
}

/**
 * Hand-frame knits without elastane, pulled along courses and wales. Reduced from the raw pin tracks: force at the clamp,
 * stretch from the top and bottom pins, width from the left and right pins, median of the frames near each force; good to
 * about 5 to 10 %. Forces near which no frame lies are left out.
 *
 * @see Singal, Dimitriyev, Gonzalez, Quinn & Matsumoto, Programming mechanics in knitted materials, stitch by stitch,
 *   2023; open data set, MIT licence: github.com/sabetta/stitch-by-stitch.
 */
export const knits2023: readonly KnitPull[] = [
  {
    sample: 'Acrylic_Yarn_Garter_X',
    clampWidth: 0.0352,
    readings: [
      [0.5, 1.0314, 0.9946],
      [1, 1.1062, 0.9661],
      [2, 1.2151, 0.9186],
      [5, 1.3949, 0.8198],
      [10, 1.5136, 0.7437],
      [20, 1.5944, 0.7199],
      [28, 1.6314, 0.6876],
    ],
  },
  {
    sample: 'Acrylic_Yarn_Garter_Y',
    clampWidth: 0.1229,
    readings: [
      [0.5, 1.0267, 1.0014],
      [1, 1.0774, 1.0013],
      [2, 1.1704, 0.982],
      [5, 1.3769, 0.9563],
      [10, 1.5356, 0.9281],
      [20, 1.6662, 0.8993],
      [28, 1.7324, 0.8722],
    ],
  },
  {
    sample: 'Acrylic_Yarn_Rib_X',
    clampWidth: 0.1031,
    readings: [
      [0.5, 1.2106, 1.0016],
      [1, 1.5565, 0.9602],
      [2, 1.9536, 0.8825],
      [5, 2.4035, 0.7676],
      [10, 2.6861, 0.6921],
      [20, 2.903, 0.6403],
      [28, 2.9932, 0.6194],
    ],
  },
  {
    sample: 'Acrylic_Yarn_Rib_Y',
    clampWidth: 0.0844,
    readings: [
      [0.5, 1.0366, 0.9961],
      [1, 1.0693, 0.9765],
      [2, 1.1509, 0.9859],
      [5, 1.2868, 0.9206],
      [10, 1.3888, 0.865],
      [20, 1.4847, 0.8566],
      [28, 1.5185, 0.8477],
    ],
  },
  {
    sample: 'Acrylic_Yarn_Seed_X',
    clampWidth: 0.0668,
    readings: [
      [0.5, 1.047, 0.991],
      [1, 1.1148, 0.9613],
      [2, 1.2129, 0.9155],
      [5, 1.3621, 0.8246],
      [10, 1.4595, 0.7694],
      [20, 1.5394, 0.7341],
      [28, 1.5725, 0.7152],
    ],
  },
  {
    sample: 'Acrylic_Yarn_Seed_Y',
    clampWidth: 0.1451,
    readings: [
      [0.5, 1.0559, 0.9983],
      [1, 1.1345, 0.9867],
      [2, 1.2548, 0.9655],
      [5, 1.4643, 0.932],
      [10, 1.6386, 0.8971],
      [20, 1.8495, 0.8598],
      [28, 1.8901, 0.8502],
    ],
  },
  {
    sample: 'Acrylic_Yarn_Stockinette_X',
    clampWidth: 0.0666,
    readings: [
      [0.5, 1.0123, 1.0032],
      [1, 1.0354, 1.0014],
      [2, 1.0938, 0.9882],
      [5, 1.2323, 0.9169],
      [10, 1.3502, 0.8506],
      [20, 1.4656, 0.7867],
      [28, 1.504, 0.7779],
    ],
  },
  {
    sample: 'Acrylic_Yarn_Stockinette_Y',
    clampWidth: 0.0959,
    readings: [
      [0.5, 1.0094, 0.9935],
      [1, 1.0107, 0.9946],
      [2, 1.0332, 0.9811],
      [5, 1.0695, 0.9635],
      [10, 1.1161, 0.9424],
      [20, 1.19, 0.8969],
      [28, 1.2265, 0.8793],
    ],
  },
  {
    sample: 'Pearlized_Cotton_Garter_X',
    clampWidth: 0.0578,
    readings: [
      [0.5, 1.0712, 0.9917],
      [1, 1.1544, 0.9586],
      [2, 1.2717, 0.9087],
      [5, 1.4216, 0.7676],
      [10, 1.4899, 0.7787],
      [20, 1.5674, 0.6825],
      [28, 1.6003, 0.7466],
    ],
  },
  {
    sample: 'Pearlized_Cotton_Garter_Y',
    clampWidth: 0.1155,
    readings: [
      [0.5, 1.1451, 1.0116],
      [1, 1.2094, 1.0058],
      [2, 1.3542, 0.9782],
      [5, 1.5555, 0.9355],
      [10, 1.6808, 0.907],
      [20, 1.8107, 0.8761],
      [28, 1.8641, 0.8641],
    ],
  },
  {
    sample: 'Pearlized_Cotton_Rib_X',
    clampWidth: 0.1001,
    readings: [
      [0.5, 1.7908, 0.9455],
      [1, 2.1283, 0.8791],
      [2, 2.4306, 0.8108],
      [5, 2.7003, 0.7323],
      [10, 2.8342, 0.7053],
      [20, 2.9321, 0.6996],
      [28, 2.9765, 0.6842],
    ],
  },
  {
    sample: 'Pearlized_Cotton_Rib_Y',
    clampWidth: 0.0905,
    readings: [
      [0.5, 1.0636, 1.0247],
      [1, 1.1469, 1.0208],
      [2, 1.2479, 0.9837],
      [5, 1.3418, 0.9796],
      [10, 1.4361, 0.9637],
      [20, 1.5065, 0.9062],
      [28, 1.5317, 0.9033],
    ],
  },
  {
    sample: 'Pearlized_Cotton_Seed_X',
    clampWidth: 0.0771,
    readings: [
      [0.5, 1.1014, 1.0012],
      [1, 1.2069, 0.9575],
      [2, 1.322, 0.8831],
      [5, 1.4584, 0.8187],
      [10, 1.5338, 0.7898],
      [20, 1.5897, 0.7725],
      [28, 1.6173, 0.8368],
    ],
  },
  {
    sample: 'Pearlized_Cotton_Seed_Y',
    clampWidth: 0.1459,
    readings: [
      [0.5, 1.052, 0.9967],
      [1, 1.1067, 0.9841],
      [2, 1.2048, 0.9624],
      [5, 1.3431, 0.9324],
      [10, 1.45, 0.9087],
      [20, 1.5439, 0.888],
      [28, 1.5779, 0.8838],
    ],
  },
  {
    sample: 'Pearlized_Cotton_Stockinette_X',
    clampWidth: 0.0645,
    readings: [
      [0.5, 1.0381, 0.9954],
      [1, 1.1021, 0.9761],
      [2, 1.1995, 0.9295],
      [5, 1.3718, 0.8411],
      [10, 1.4852, 0.7964],
      [20, 1.5409, 0.7713],
      [28, 1.5678, 0.7655],
    ],
  },
  {
    sample: 'Pearlized_Cotton_Stockinette_Y',
    clampWidth: 0.0975,
    readings: [
      [0.5, 1.0128, 0.9928],
      [1, 1.0137, 0.9878],
      [2, 1.0244, 0.9836],
      [5, 1.0746, 0.9502],
      [10, 1.1184, 0.9304],
      [20, 1.1675, 0.9163],
      [28, 1.1846, 0.9109],
    ],
  },
  {
    sample: 'glovePrototype_garterx',
    clampWidth: 0.0549,
    readings: [
      [0.5, 1.0302, 0.9992],
      [1, 1.0921, 0.9831],
      [2, 1.2129, 0.9453],
      [5, 1.4175, 0.8685],
      [10, 1.5699, 0.8044],
      [20, 1.6976, 0.7522],
      [28, 1.7577, 0.7317],
    ],
  },
  {
    sample: 'glovePrototype_gartery',
    clampWidth: 0.084,
    readings: [
      [0.5, 1.0308, 0.9997],
      [1, 1.1194, 0.9902],
      [2, 1.2734, 0.9717],
      [5, 1.5442, 0.9315],
      [10, 1.7535, 0.8902],
      [20, 1.9562, 0.843],
      [28, 2.0345, 0.8234],
    ],
  },
  {
    sample: 'glovePrototype_ribx',
    clampWidth: 0.0804,
    readings: [
      [0.5, 1.0856, 1.0002],
      [1, 1.223, 0.9908],
      [2, 1.4789, 0.9607],
      [5, 1.9342, 0.8701],
      [10, 2.2382, 0.8005],
      [20, 2.5211, 0.7389],
    ],
  },
  {
    sample: 'glovePrototype_riby',
    clampWidth: 0.0635,
    readings: [
      [0.5, 1.0069, 0.9971],
      [1, 1.0386, 0.9888],
      [2, 1.0854, 0.9788],
      [5, 1.2375, 0.9236],
      [10, 1.3701, 0.8646],
      [20, 1.4849, 0.8089],
      [28, 1.5244, 0.7898],
    ],
  },
  {
    sample: 'glovePrototype_seedx',
    clampWidth: 0.071,
    readings: [
      [0.5, 1.0272, 0.996],
      [1, 1.0808, 0.9802],
      [2, 1.203, 0.9417],
      [5, 1.3723, 0.8798],
      [10, 1.5399, 0.8141],
      [20, 1.6925, 0.7565],
      [28, 1.7352, 0.7439],
    ],
  },
  {
    sample: 'glovePrototype_seedy',
    clampWidth: 0.0943,
    readings: [
      [0.5, 1.0288, 1.0032],
      [1, 1.0695, 0.9971],
      [2, 1.1474, 0.9783],
      [5, 1.3317, 0.9413],
      [10, 1.5158, 0.9143],
      [20, 1.6587, 0.9001],
      [28, 1.7161, 0.8963],
    ],
  },
  {
    sample: 'glovePrototype_stockinettex',
    clampWidth: 0.0671,
    readings: [
      [1, 1.0066, 0.9956],
      [2, 1.0347, 0.9794],
      [5, 1.1182, 0.9471],
      [10, 1.2458, 0.8914],
      [20, 1.3601, 0.8454],
      [28, 1.4252, 0.824],
    ],
  },
  {
    sample: 'glovePrototype_stockinettey',
    clampWidth: 0.0588,
    readings: [
      [1, 1.016, 0.9929],
      [2, 1.0196, 0.9908],
      [5, 1.082, 0.9595],
      [10, 1.1646, 0.9181],
      [20, 1.2684, 0.8696],
      [28, 1.2978, 0.8574],
    ],
  },
];
