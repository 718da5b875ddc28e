import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';

import { fabricFromReadings } from '../../core/fabric/fabric-from-readings.ts';
import { parseBenchSheet } from '../../core/io/read-bench-sheet.ts';
import { fabricCard } from '../../core/sheet/fabric-card.ts';
import { cardText } from '../../core/words/card-text.ts';
import { inputText, sourceText } from '../../core/words/card-words.ts';
import { CARD_SIZE, cardDrawing, wrapped } from '../../renderer/panels/bench/card-drawing.ts';
import type { Shape } from '../../renderer/panels/bench/chart-shapes.ts';
import { DerivedNumber, DerivedWorks } from '../../renderer/panels/bench/DerivedNumber.tsx';
import { FabricCardPage } from '../../renderer/panels/bench/FabricCardPage.tsx';
import { demoSheetText } from '../help/demo-sheet.ts';

const readings = parseBenchSheet(demoSheetText('tern-210'));
const card = fabricCard(fabricFromReadings(readings), readings);
const text = cardText(card);
const nothing = () => undefined;

const decoded = (markup: string): string =>
  markup.replaceAll('&#x27;', "'").replaceAll('&quot;', '"').replaceAll('&amp;', '&');

/** Letters about half as wide as high: near enough for lines to be laid out. */
const measure = (words: string, { size }: { readonly size: number }): number => words.length * size * 0.52;

describe('a derived number', () => {
  const number = card.numbers.find(({ id }) => id === 'bendingRigidity-warp')!;

  it('stands with its value, its works folded behind a button that says so', () => {
    const markup = renderToStaticMarkup(<DerivedNumber number={number} />);
    expect(markup).toContain('aria-expanded="false"');
    expect(markup).toContain(number.value);
    expect(markup).not.toContain(number.formula);
    const [, controlled] = /aria-controls="([^"]+)"/.exec(markup)!;
    expect(markup).toContain(`id="${controlled}"`);
  });

  it('unfolds formula, every input, and every source', () => {
    const markup = decoded(renderToStaticMarkup(<DerivedWorks number={number} />));
    for (const part of [number.formula, ...number.inputs.map(inputText), ...number.sources.map(sourceText)])
      expect(markup).toContain(part);
  });
});

describe('the card', () => {
  const page = decoded(
    renderToStaticMarkup(
      <FabricCardPage card={card} printedOn="2026-01-05" onPrint={nothing} onSavePicture={nothing} />,
    ),
  );
  const shapes = cardDrawing(card, measure, '2026-01-05');
  const drawn = shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : [])).join(' ');
  const printed = [
    text.name,
    text.lot,
    text.mark!,
    ...text.single.map(({ value }) => value),
    ...text.numbers.lines.flat(),
    ...text.residuals.lines.flat(),
    'printed 2026-01-05',
  ];

  it('prints every number on the page and in the picture', () => {
    for (const part of printed) {
      expect(page).toContain(part);
      expect(drawn).toContain(part);
    }
  });

  it('carries sentences whole in both', () => {
    for (const sentence of [
      text.note!,
      ...text.coupling,
      ...text.methods.map(({ text: how }) => how),
      text.caution,
    ]) {
      expect(page).toContain(sentence);
      expect(drawn).toContain(sentence);
    }
  });

  it('draws the strips’ curves in both', () => {
    expect(page).toMatch(/<svg[^>]*viewBox="0 0 \d+ \d+"/);
    expect(shapes.filter(({ kind }) => kind === 'lines').length).toBeGreaterThan(6);
  });

  it('keeps the picture inside its sheet', () => {
    for (const [x, y] of shapes.flatMap(placesOf)) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(CARD_SIZE.width);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(CARD_SIZE.height);
    }
  });
});

it('lines are as full as their width allows, and keep every word', () => {
  const words = 'warp and weft pull on each other';
  const lines = wrapped(words, 100, measure);
  expect(lines.join(' ')).toBe(words);
  for (const line of lines) expect(measure(line, { size: 12 })).toBeLessThanOrEqual(100);
  expect(lines.length).toBeLessThan(words.split(' ').length);
});

function placesOf(shape: Shape): readonly (readonly [number, number])[] {
  switch (shape.kind) {
    case 'text':
      return [shape.at];
    case 'lines':
      return shape.lines.flat();
    case 'area':
      return shape.outline;
    case 'dots':
      return shape.at;
    default: {
      const never: never = shape;
      return never;
    }
  }
}
