import { rampFor } from '../../core/sheet/field-range.ts';
import { tapeUnits } from '../../core/sheet/display-unit.ts';
import { legendOf } from '../../core/sheet/legend.ts';
import { bandText, readings } from '../../core/sheet/number-format.ts';
import { bandFromWords, fieldHeading, missingWords } from '../../core/words/field-words.ts';
import { CAUTION_SHORT } from '../../core/words/judgement-words.ts';
import { BRANCH_WORDS, fabricLetter, notAtRestWords, residualText } from '../../core/words/stage-words.ts';
import { fleshText, frictionText, triedLine } from '../../core/words/try-words.ts';
import { wornAt, type ShownStudy } from '../store/study-store.ts';
import { bandFrom, paintedField, rangeOf, type ViewState } from '../store/view-store.ts';
import type { Table } from '../table.ts';
import { isBare } from '../store/body-store.ts';
import { drawBare } from './draw-bare.ts';
import { drawLegend } from './draw-legend.ts';
import { createPen, type Pen } from './picture-pen.ts';

/** A picture's size, px. */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

export const PICTURE_SIZE: PictureSize = { width: 2400, height: 1500 };

/** The stage as a sheet of paper: form, legend, what it is, what it rests on, and the caution. PNG. */
export async function takePicture(table: Table, size = PICTURE_SIZE): Promise<Uint8Array> {
  const draw = table.signals.draw.get();
  const { shown } = table.study.getState();
  if (draw === null || shown === null) throw new Error('there is nothing on the stage yet');
  await document.fonts.ready;
  const canvas = document.createElement('canvas');
  canvas.width = size.width;
  canvas.height = size.height;
  const pen = createPen(canvas);
  pen.sheet.fillStyle = pen.colours.paper;
  pen.sheet.fillRect(0, 0, size.width, size.height);
  pen.sheet.drawImage(faded(draw(size.width, size.height)), 0, 0);
  const view = table.view.getState();
  const body = table.body.getState();
  if (isBare(view, body)) drawBare(pen, shown, { ...body, ramp: view.ramp });
  else {
    drawHeading(pen, shown, view);
    drawPictureLegend(pen, shown, view);
    drawFoot(pen, shown, view);
  }
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error('the picture could not be written');
  return new Uint8Array(await blob.arrayBuffer());
}

/** Where the form runs out: shares of the height from above, of the width from the left; opaque between the inner two. */
const FADE_DOWN = [0.13, 0.21, 0.85, 0.92] as const;
const FADE_ACROSS = [0.02, 0.1, 0.68, 0.76] as const;

/** The form running out softly at every edge, as on the screen: writing never crosses it. */
function faded(form: HTMLCanvasElement): HTMLCanvasElement {
  const pen = form.getContext('2d')!;
  const { width, height } = form;
  const down = pen.createLinearGradient(0, 0, 0, height);
  const across = pen.createLinearGradient(0, 0, width, 0);
  pen.globalCompositeOperation = 'destination-in';
  for (const [fade, stops] of [
    [down, FADE_DOWN],
    [across, FADE_ACROSS],
  ] as const) {
    stops.forEach((stop, index) =>
      fade.addColorStop(stop, index === 1 || index === 2 ? 'black' : 'transparent'),
    );
    pen.fillStyle = fade;
    pen.fillRect(0, 0, width, height);
  }
  return form;
}

function drawHeading(pen: Pen, shown: ShownStudy, view: ViewState): void {
  const { sheet, settled, tried, asOpened } = shown;
  const { write, unit } = pen;
  write(sheet.name, { x: 40, y: 56, size: 26, weight: 600 });
  write(fieldHeading(view.field, view.showing), { x: 40, y: 92, size: 19, weight: 600 });
  const indices = view.showing === 'difference' ? [0, 1] : [view.fabric];
  indices.forEach((index, row) => {
    const { name, lot, weight, around40 } = sheet.fabrics[index]!;
    const facts = `${fabricLetter(index)} · ${name}, lot ${lot}, ${weight}, ${around40} at 40 % around`;
    write(facts, { x: 40, y: 120 + 22 * row, size: 15 });
  });
  const line = triedLine(tried, asOpened);
  if (line !== '') write(line, { x: 40, y: 121 + 22 * indices.length, size: 15, weight: 600 });
  const restless = indices.filter((index) => !wornAt(settled, index).atRest);
  if (restless.length === 0) return;
  pen.sheet.fillStyle = pen.colours.alarm;
  // As far as the legend.
  pen.sheet.fillRect(0, 170 * unit, (pen.width - 364) * unit, 44 * unit);
  const moving = notAtRestWords.line(
    restless.map(fabricLetter),
    restless.map((index) => residualText(wornAt(settled, index).residual)),
  );
  write(`${notAtRestWords.title.toUpperCase()}. ${moving}`, {
    x: 40,
    y: 199,
    size: 19,
    weight: 600,
    colour: '#ffffff',
  });
}

function drawPictureLegend(pen: Pen, shown: ShownStudy, view: ViewState): void {
  const field = paintedField(shown.settled, view);
  const isDifference = view.showing === 'difference';
  const range = rangeOf(view);
  const { vertexArea } = wornAt(shown.settled, isDifference ? 0 : view.fabric);
  drawLegend(pen, legendOf({ field, range, vertexArea, isDifference }), {
    ramp: rampFor(field.kind, view.ramp),
    missing: missingWords(field.id, view.showing),
    bandFrom: bandFromWords(bandFrom(shown.settled, view)),
  });
}

const KPA = tapeUnits('Pa').first;

function drawFoot(pen: Pen, { sheet, settled }: ShownStudy, view: ViewState): void {
  const { review, residual } = wornAt(settled, view.fabric);
  const invented = sheet.fabrics.some((fabric) => fabric.invented)
    ? ' · readings invented for demonstration'
    : '';
  const band = review.band ? ` (band ${bandText(review.band.highest, KPA, { decimals: KPA.decimals })})` : '';
  const facts = [
    `highest ${readings(review.highestPressure, 'Pa').join(', ')}${band}`,
    `friction ${frictionText({ coefficient: sheet.friction, from: sheet.frictionFrom })}`,
    fleshText(sheet.flesh),
    BRANCH_WORDS[sheet.branch],
    `${settled.edgeVertex.length.toLocaleString('en-GB')} points`,
    `${residualText(residual)} unbalanced`,
  ].join(' · ');
  pen.write(facts + invented, { x: 40, y: 948, size: 14, colour: pen.colours.soft });
  pen.write(CAUTION_SHORT, { x: 40, y: 974, size: 15 });
}
