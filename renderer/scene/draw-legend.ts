import { rampBytes, TEXEL_COUNT, texelColour, type RampName } from '../../core/sheet/colour-scale.ts';
import type { Legend, LegendEdge } from '../../core/sheet/legend.ts';
import { areaText } from '../../core/sheet/number-format.ts';
import { OUTSIDE_COLOURS } from '../../core/sheet/outside-colours.ts';
import { bandLine } from '../../core/words/field-words.ts';
import type { Pen } from './picture-pen.ts';

/** What a legend needs beside its numbers. */
export interface LegendLook {
  readonly ramp: RampName;
  /** What hatched places are. */
  readonly missing: string;
  /** What the band rests on. */
  readonly bandFrom: string;
}

/** Upper and lower end of the tape, its width, and the room for the bars, in thousandths of the picture's height. */
const TAPE = { top: 190, bottom: 760, width: 34, bars: 120 } as const;

/** The tape measure at the right edge of a picture, its colours from the same bytes as the cloth's. */
export function drawLegend(pen: Pen, legend: Legend, look: LegendLook): void {
  drawTape(pen, legend, look.ramp);
  const unit = legend.first.unit;
  drawSwatch(pen, {
    row: 0,
    area: legend.above,
    words: `above ${legend.highLabel} ${unit}`,
    fill: OUTSIDE_COLOURS.above,
  });
  drawSwatch(pen, {
    row: 1,
    area: legend.below,
    words: `below ${legend.lowLabel} ${unit}`,
    fill: OUTSIDE_COLOURS.below,
  });
  drawSwatch(pen, { row: 2, area: legend.missing, words: look.missing, fill: null });
  if (legend.band !== null) drawBand(pen, bandLine(legend.band), look.bandFrom);
}

/** The tape alone: area per band, ramp, marks at both edges. */
export function drawTape(pen: Pen, legend: Legend, ramp: RampName): void {
  const left = pen.width - 150;
  drawBars(pen, legend, left - 74);
  drawRamp(pen, ramp, left);
  drawEdge(pen, legend.first, { x: left, way: -1 });
  if (legend.second !== null) drawEdge(pen, legend.second, { x: left + TAPE.width, way: 1 });
}

const heightAt = (at: number): number => TAPE.bottom + (TAPE.top - TAPE.bottom) * at;

function drawRamp({ sheet, unit }: Pen, name: RampName, x: number): void {
  const bytes = rampBytes(name);
  const [left, right] = [Math.round(x * unit), Math.round((x + TAPE.width) * unit)];
  // Each texel its own whole rows of pixels, so that a colour of the picture reads back to one place on the tape.
  for (let texel = 0; texel < TEXEL_COUNT; texel++) {
    const lower = Math.round(heightAt(texel / TEXEL_COUNT) * unit);
    const upper = Math.round(heightAt((texel + 1) / TEXEL_COUNT) * unit);
    sheet.fillStyle = texelColour(bytes, texel);
    sheet.fillRect(left, upper, right - left, lower - upper);
  }
}

function drawEdge(pen: Pen, edge: LegendEdge, { x, way }: { x: number; way: 1 | -1 }): void {
  const { write, box, colours } = pen;
  const align = way === 1 ? 'left' : 'right';
  write(edge.unit, { x: x + 6 * way, y: TAPE.top - 14, size: 15, weight: 600, align });
  const tick = (at: number, length: number): void =>
    box([way === 1 ? x : x - length, heightAt(at) - 0.5, length, 1], colours.ink);
  for (const at of edge.fine) tick(at, 4);
  for (const { at, label } of edge.marks) {
    tick(at, 9);
    write(label, { x: x + 14 * way, y: heightAt(at) + 5, size: 15, align });
  }
}

function drawBars({ box, write, colours }: Pen, { bands }: Legend, right: number): void {
  const most = bands.reduce((widest, area) => Math.max(widest, area), 0);
  if (most === 0) return;
  const height = (TAPE.bottom - TAPE.top) / bands.length;
  bands.forEach((area, band) => {
    const width = (TAPE.bars * area) / most;
    box([right - width, heightAt((band + 1) / bands.length) + 1, width, height - 2], colours.bar);
  });
  write(`bars to ${areaText(most)}`, {
    x: right - TAPE.bars,
    y: TAPE.top - 14,
    size: 13,
    colour: colours.soft,
  });
}

interface SwatchRow {
  readonly row: number;
  readonly area: number;
  readonly words: string;
  /** Null: hatched. */
  readonly fill: string | null;
}

function drawSwatch(pen: Pen, { row, area, words, fill }: SwatchRow): void {
  const left = pen.width - 344;
  const top = TAPE.bottom + 34 + 28 * row;
  pen.box([left, top, 26, 18], fill ?? OUTSIDE_COLOURS.blank);
  if (fill === null) hatch(pen, [left, top, 26, 18]);
  pen.write(words, { x: left + 36, y: top + 14, size: 15 });
  pen.write(area > 0 ? areaText(area) : 'none', {
    x: pen.width - 40,
    y: top + 14,
    size: 15,
    align: 'right',
    colour: pen.colours.soft,
  });
}

function drawBand({ write, width, colours }: Pen, band: string, from: string): void {
  const left = width - 344;
  const top = TAPE.bottom + 34 + 28 * 3;
  write(band, { x: left, y: top + 14, size: 15 });
  from
    .split('; ')
    .forEach((part, row) => write(part, { x: left, y: top + 33 + 17 * row, size: 13, colour: colours.soft }));
}

function hatch({ sheet, unit }: Pen, [x, y, width, height]: readonly [number, number, number, number]): void {
  sheet.save();
  sheet.beginPath();
  sheet.rect(x * unit, y * unit, width * unit, height * unit);
  sheet.clip();
  sheet.strokeStyle = OUTSIDE_COLOURS.stroke;
  sheet.lineWidth = 1.2 * unit;
  for (let start = -height; start < width; start += 5) {
    sheet.beginPath();
    sheet.moveTo((x + start) * unit, (y + height) * unit);
    sheet.lineTo((x + start + height) * unit, y * unit);
    sheet.stroke();
  }
  sheet.restore();
}
