import type { Check } from './check.ts';
import { ovalMiss, settleOvalTube, type OvalTube } from './oval-tube.ts';
import { columnMean, innerRows, mean } from './settled-tube.ts';

/** Ankle of 240 mm girth, a / b = 1.228. */
const ANKLE: OvalTube = {
  a: 0.042,
  b: 0.0342,
  tension: 125.8,
  stiffness: 600,
  height: 0.04,
  columns: 96,
  rows: 16,
};

/** Half axes in mm of ovals of 240 mm girth, with their greatest and least pressure over the mean. */
const OVALS = [
  ['1.1', 39.99, 36.36, 1.156, 0.868],
  ['1.5', 45.38, 30.25, 1.894, 0.561],
  ['2.0', 49.54, 24.77, 3.084, 0.385],
] as const;

/** Tubes on oval bars: an ankle with its six readings, rounder and flatter ovals, a trunk vertex by vertex. */
export function* ovalSections(): Generator<void, Check[]> {
  const checks = ankle();
  yield;
  for (const [name, a, b, most, least] of OVALS) {
    checks.push(
      ...ratios(
        { ...ANKLE, a: a / 1000, b: b / 1000, tension: 10, columns: 192 },
        {
          id: `oval.${name}`,
          what: `a/b ${name}`,
          source:
            'Uniform tension on an ellipse, P = T kappa: T a / b^2 and T b / a^2 over 2 pi T / C; C 240 mm',
          most,
          least,
        },
      ),
    );
  }
  yield;
  for (const [columns, tolerance] of [
    [96, 0.5],
    [192, 0.2],
  ] as const) {
    const trunk: OvalTube = { ...ANKLE, a: 0.15, b: 0.1, tension: 60, height: 0.08, columns, rows: 8 };
    checks.push({
      id: `oval.150-100.edge-${columns === 96 ? 'coarse' : 'fine'}`,
      what: `departure of single vertices, 150 x 100 mm, edges of ${(793.3 / columns).toFixed(1)} mm`,
      source:
        'Laplace on an ellipse, P = T a b / (a^2 sin^2 + b^2 cos^2)^1.5; root-mean-square over the mean pressure',
      expected: 0,
      got: 100 * ovalMiss(trunk, settleOvalTube(trunk)),
      unit: '% rms',
      tolerance,
    });
  }
  return checks;
}

/** What was read on ankles is an oval's pressure; one number, a / b, gives both of its ratios. */
function ankle(): Check[] {
  return ratios(ANKLE, {
    id: 'oval.ankle',
    what: 'an ankle, a/b 1.228',
    source:
      'Veraart et al. 1997, Dermatol. Surg. (abstract): class II stockings, mean 24.7, least 18.3, most 33.9 mmHg; on an ellipse of a/b = 1.228 exactly 1.372 and 0.741',
    most: 1.372,
    least: 0.741,
  });
}

interface Expected {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly most: number;
  readonly least: number;
}

function ratios(oval: OvalTube, { id, what, source, most, least }: Expected): Check[] {
  const settled = settleOvalTube(oval);
  const average = mean(innerRows(settled, settled.pressure));
  const over = (column: number) => columnMean(settled, settled.pressure, column) / average;
  const common = { source, unit: 'of the mean' };
  return [
    {
      id: `${id}.most`,
      what: `${what}: greatest pressure`,
      ...common,
      expected: most,
      got: over(oval.columns / 4),
      tolerance: 0.01 * most,
    },
    {
      id: `${id}.least`,
      what: `${what}: least pressure`,
      ...common,
      expected: least,
      got: over(0),
      tolerance: 0.01 * least,
    },
  ];
}
