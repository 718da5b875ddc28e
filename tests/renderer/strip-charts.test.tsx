import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { stripCharts, type ChartedFabric } from '../../core/sheet/strip-chart.ts';
import { chartDrawing } from '../../renderer/panels/bench/chart-drawing.ts';
import { markRows, nearestMark, stepMark } from '../../renderer/panels/bench/chart-marks.ts';
import { numberTable } from '../../renderer/panels/bench/chart-numbers.ts';
import { chartSheet } from '../../renderer/panels/bench/chart-picture.ts';
import { pathOf, type Place, type Shape } from '../../renderer/panels/bench/chart-shapes.ts';
import { StripCharts } from '../../renderer/panels/bench/StripCharts.tsx';
import { screenPalette } from '../../renderer/store/palette.ts';
import { pretendCharted } from '../help/pretend-evidence.ts';

const SIZE = { width: 1130, height: 340 };
const one = stripCharts([pretendCharted({ specimens: 3 })], 'N/50 mm');
const two = stripCharts(
  [pretendCharted({ specimens: 3 }), pretendCharted({ letter: 'B', name: 'Other', strength: 0.7 })],
  'N/50 mm',
);

const markupOf = (charts = two): string =>
  renderToStaticMarkup(
    <StripCharts charts={charts} onSavePicture={() => undefined} onSaveText={() => undefined} />,
  );

const textsOf = (shapes: readonly Shape[]): readonly string[] =>
  shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));

function placesOf(shape: Shape): readonly Place[] {
  switch (shape.kind) {
    case 'text':
      return [shape.at];
    case 'lines':
      return shape.lines.flat();
    case 'area':
      return shape.outline;
    case 'dots':
      return shape.at;
  }
}

/** Source: WCAG 2.2, relative luminance and contrast ratio; 4.5 for text (1.4.3), 3 for graphics (1.4.11). */
const luminance = (hex: string): number => {
  const [r, g, b] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
};

const contrast = (a: string, b: string): number => {
  const [high, low] = [luminance(a), luminance(b)].toSorted((x, y) => y - x);
  return (high! + 0.05) / (low! + 0.05);
};

/** One reading a direction, of that tension. */
const spoilt = (tension: number): ChartedFabric => {
  const fabric = pretendCharted({ withReturn: false, withWidth: false });
  const load = {
    ...fabric.strips.warp.load,
    readings: [{ extension: 0.5, tension, deviation: null, fitted: tension }],
    fitted: { extensions: Float64Array.from([0, 0.5]), tensions: Float64Array.from([0, tension]) },
  };
  const strip = { ...fabric.strips.warp, load, modulus: [], loss: null };
  return { ...fabric, strips: { warp: strip, weft: strip, bias: strip } };
};

describe('the drawing', () => {
  it('has every reading on its panel, where the scales lead back to its value', () => {
    const { panels } = chartDrawing(two, SIZE);
    for (const [index, panel] of panels.entries()) {
      const rows = markRows(two, panel);
      // Load, return and width of two fabrics.
      expect(rows).toHaveLength(6);
      for (const { at } of rows.flat()) {
        expect(at[0]).toBeGreaterThanOrEqual(panel.force.x - 1e-9);
        expect(at[0]).toBeLessThanOrEqual(panel.force.x + panel.force.width + 1e-9);
        const isForce = at[1] <= panel.force.y + panel.force.height + 1e-9;
        const room = isForce ? panel.force : panel.width;
        expect(at[1]).toBeGreaterThanOrEqual(room.y - 1e-9);
        expect(at[1]).toBeLessThanOrEqual(room.y + room.height + 1e-9);
      }
      const { readings } = two.charts[index]!.traces[0]!.load;
      const mark = rows[0]!.find(({ extension }) => extension === readings[2]!.extension)!;
      expect(panel.extensionScale.value(mark.at[0])).toBeCloseTo(readings[2]!.extension, 9);
      expect(panel.forceScale.value(mark.at[1])).toBeCloseTo(readings[2]!.value, 9);
    }
  });

  it('gives equal forces equal heights in all three panels', () => {
    const heights = chartDrawing(two, SIZE).panels.map(({ forceScale }) => forceScale.place(3));
    expect(new Set(heights).size).toBe(1);
  });

  it.each([
    ['at 1280 x 800', SIZE],
    ['at 1920 x 1080', { width: 1770, height: 560 }],
    ['in a corner', { width: 500, height: 260 }],
  ])('stays on the sheet %s', (_, size) => {
    const { shapes, width, height } = chartDrawing(two, size);
    for (const [x, y] of shapes.flatMap(placesOf)) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(width);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(height);
    }
  });

  it('tells the fabrics apart by line and mark, not by tone alone', () => {
    const { shapes } = chartDrawing(two, SIZE);
    const dots = shapes.filter((shape) => shape.kind === 'dots');
    expect(new Set(dots.map(({ form }) => form))).toEqual(new Set(['dot', 'ring']));
    for (const { form, ink } of dots) expect(ink).toBe(form === 'dot' ? 'ink' : 'soft');
    const curves = shapes.filter((shape) => shape.kind === 'lines' && shape.width === 1.9);
    expect(curves.some((shape) => shape.kind === 'lines' && shape.ink === 'ink' && !shape.dash)).toBe(true);
    expect(
      curves.every((shape) => shape.kind === 'lines' && (shape.ink === 'ink' || shape.dash !== undefined)),
    ).toBe(true);
  });

  it('says where the width was assumed and where no way back was read', () => {
    const bare = stripCharts([pretendCharted({ withReturn: false, withWidth: false })], 'N/m');
    const texts = textsOf(chartDrawing(bare, SIZE).shapes);
    expect(texts.filter((text) => text === 'not read: a usual width')).toHaveLength(3);
    expect(texts.filter((text) => text === 'no way back read')).toHaveLength(3);
    expect(texts).toContain('width assumed');
    expect(texts).not.toContain('work kept by the strip');
  });
});

describe('inks on paper', () => {
  it('of both fabrics and of all writing stand out', () => {
    expect(contrast(screenPalette.ink, screenPalette.paper)).toBeGreaterThan(4.5);
    expect(contrast(screenPalette.soft, screenPalette.paper)).toBeGreaterThan(4.5);
  });
});

describe('pointing', () => {
  const panel = chartDrawing(two, SIZE).panels[0]!;
  const rows = markRows(two, panel);

  it('reads out the nearest mark in words', () => {
    const { readings } = two.charts[0]!.traces[0]!.load;
    const reading = readings[2]!;
    const [x, y] = rows[0]!.find(({ extension }) => extension === reading.extension)!.at;
    const found = nearestMark(rows, [x + 2, y - 3], 60)!;
    const said = rows[found.row]![found.mark]!.says().replaceAll('\u00a0', ' ');
    expect(said).toBe(
      `Warp, A pulled out, 30 %: read ${reading.value.toFixed(2)} N, sd ${reading.deviation!.toFixed(2)} of 3, the law gives ${reading.fitted.toFixed(2)}.`,
    );
    expect(nearestMark(rows, [x, y - 300], 60)).toBeNull();
  });

  it('steps along a curve and to the next one at the same extension, and stops at the ends', () => {
    const start = { row: 0, mark: 3 };
    expect(stepMark(rows, start, 'ArrowRight')).toEqual({ row: 0, mark: 4 });
    expect(stepMark(rows, { row: 0, mark: 0 }, 'ArrowLeft')).toEqual({ row: 0, mark: 0 });
    expect(stepMark(rows, start, 'End')!.mark).toBe(rows[0]!.length - 1);
    expect(stepMark(rows, start, 'a')).toBeNull();
    const below = stepMark(rows, start, 'ArrowDown')!;
    expect(below.row).toBe(1);
    expect(rows[1]![below.mark]!.extension).toBeCloseTo(rows[0]![3]!.extension, 9);
    expect(stepMark(rows, start, 'ArrowUp')!.row).toBe(rows.length - 1);
  });

  it('says of a stated extension beyond the readings that nobody read it', () => {
    const bias = chartDrawing(two, SIZE).panels[2]!;
    const last = markRows(two, bias)[0]!.at(-1)!;
    expect(last.says().replaceAll('\u00a0', ' ')).toMatch(
      /^Bias, 45°, A pulled out, 80 %: not read, the law gives \d+\.\d\d N, beyond the last reading: a guess\.$/,
    );
  });
});

describe('the table of numbers', () => {
  it('puts what lies beyond the readings in brackets and labels both losses', () => {
    const { rows, heads } = numberTable(one);
    expect(heads.slice(0, 4)).toEqual(['20\u00a0%', '40\u00a0%', '60\u00a0%', '80\u00a0%']);
    const [out, back, width, loses] = rows;
    expect([out!.name, back!.name, width!.name, loses!.name]).toEqual([
      'pulled out',
      'let back',
      'width',
      'loses',
    ]);
    const [warp, , bias] = one.charts.map(({ traces }) => traces[0]!);
    expect(out!.cells[0]![1]).toBe(warp!.modulus[1]!.load.toFixed(2));
    expect(out!.cells[2]![3]).toBe(`(${bias!.modulus[3]!.load.toFixed(2)})`);
    expect(loses!.cells[0]![0]!.replaceAll('\u00a0', ' ')).toBe(
      `${warp!.loss!.byEnergy.toFixed(1)} % by energy from 80 %, ${warp!.loss!.byForceAt40!.toFixed(1)} % by force at 40 %`,
    );
  });

  it('gives misses in newton and in per cent', () => {
    const { load } = one.charts[0]!.traces[0]!;
    const cells = numberTable(one).rows[0]!.cells[0]!;
    expect(cells[4]).toBe(load.misses!.rms.toFixed(3));
    expect(cells[5]).toBe(load.misses!.rmsPercent.toFixed(2));
    expect(Number(cells[6]!.replace('−', '-'))).toBeCloseTo(load.misses!.worst, 3);
    expect(Number(cells[7]!.replace('−', '-'))).toBeCloseTo(load.misses!.worstPercent, 2);
  });
});

describe('on the page', () => {
  it('names every chart, says what it is, and sets the numbers out as a table', () => {
    const markup = markupOf();
    for (const name of ['Warp strip', 'Weft strip', 'Bias, 45° strip']) {
      expect(markup).toContain(`aria-label="${name}: readings, by arrow keys"`);
    }
    expect(markup.match(/role="slider"/g)).toHaveLength(3);
    expect(markup.match(/aria-valuetext="[^"]+: read [^"]+"/g)).toHaveLength(3);
    expect(markup.match(/<th scope="row">/g)).toHaveLength(8);
    expect(markup).toContain('a strip of the fitted fabric, pulled in the computer');
  });

  it('offers units only where they can be chosen', () => {
    expect(markupOf()).not.toContain('aria-pressed');
  });

  it('has no colours of its own', () => {
    expect(markupOf()).not.toMatch(/#[0-9a-f]{3,6}\b(?!\))|rgb\(/i);
  });
});

describe('the picture', () => {
  it('carries title, unit, names, lots, legend, numbers, and what is invented', () => {
    const { shapes, width, height } = chartSheet(two);
    const texts = textsOf(shapes);
    expect(texts[0]).toBe('Strip curves, forces in N/50 mm · readings invented for demonstration');
    for (const text of [
      'A  Pretend (invented), lot A-1, 3 strips each way',
      'B  Other (invented), lot B-1',
      'fitted, let back',
      'beyond the readings',
      'Weft',
      'B let back',
    ]) {
      expect(texts).toContain(text);
    }
    for (const [x, y] of shapes.flatMap(placesOf)) {
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(width);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(height);
    }
  });

  it('draws the same curves as the window', () => {
    // The same shapes, moved by one step and nothing else.
    const drawn = chartDrawing(two, { width: 1240 - 72, height: 470 }).shapes.filter(
      ({ kind }) => kind === 'dots',
    );
    const pictured = chartSheet(two).shapes.filter(({ kind }) => kind === 'dots');
    expect(pictured).toHaveLength(drawn.length);
    const steps = drawn.flatMap((shape, i) => {
      const moved = placesOf(pictured[i]!);
      return placesOf(shape).map(
        ([x, y], k) => `${(moved[k]![0] - x).toFixed(6)} ${(moved[k]![1] - y).toFixed(6)}`,
      );
    });
    expect(new Set(steps).size).toBe(1);
  });

  it('does not call a measured fabric invented', () => {
    const measured: ChartedFabric = { ...pretendCharted(), invented: false };
    const texts = textsOf(chartSheet(stripCharts([measured], 'N/m')).shapes);
    expect(texts.join(' ')).not.toMatch(/invented/i);
  });
});

describe('much and odd evidence', () => {
  it('thins 500 readings of 5 specimens of two fabrics to what a screen shows', () => {
    const dense = [
      pretendCharted({ specimens: 5, count: 500 }),
      pretendCharted({ letter: 'B', specimens: 5, count: 500, strength: 0.8 }),
    ];
    const { shapes } = chartDrawing(stripCharts(dense, 'N/50 mm'), SIZE);
    const paths = shapes.map((shape) => (shape.kind === 'text' ? '' : pathOf(shape)));
    // 36 specimen curves and their kin, not 60,000 points.
    expect(paths.join('').length).toBeLessThan(600_000);
  });

  it.each([0, 1e-9, 1e9, Number.NaN, Infinity])('draws one reading of %d N/m without a NaN', (tension) => {
    const charts = stripCharts([spoilt(tension)], 'N/50 mm');
    const markup = markupOf(charts);
    expect(markup).not.toMatch(/NaN|Infinity|undefined/);
    expect(markup.match(/role="slider"/g)).toHaveLength(3);
  });
});
