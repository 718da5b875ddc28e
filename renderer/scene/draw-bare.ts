import type { RampName } from '../../core/sheet/colour-scale.ts';
import { tissueLegend } from '../../core/sheet/tissue-legend.ts';
import { TISSUE_ESTIMATE_WORDS } from '../../core/words/tape-words.ts';
import { girthLabel, TAPE_LEAF_WORDS, tapeName } from '../../core/words/tape-leaf-words.ts';
import { CAUTION_SHORT } from '../../core/words/judgement-words.ts';
import { triedLine } from '../../core/words/try-words.ts';
import { TISSUE_WORDS } from '../../core/words/tissue-words.ts';
import type { BodyState } from '../store/body-store.ts';
import type { ShownStudy } from '../store/study-store.ts';
import { drawTape } from './draw-legend.ts';
import type { Pen } from './picture-pen.ts';

/** What the bare form shows, and in which colours. */
export interface BareLook extends BodyState {
  readonly ramp: RampName;
}

/** What a picture of the bare form says beside it: what the tapes read, or the legend of its flesh. */
export function drawBare(pen: Pen, { sheet, tried, asOpened }: ShownStudy, body: BareLook): void {
  pen.write(sheet.name, { x: 40, y: 56, size: 26, weight: 600 });
  pen.write(triedLine(tried, asOpened), { x: 40, y: 121, size: 15, weight: 600 });
  pen.write(CAUTION_SHORT, { x: 40, y: 974, size: 15 });
  if (body.part === 'flesh') drawFlesh(pen, body);
  else drawReadings(pen, body);
}

function drawFlesh(pen: Pen, { flesh, fleshShown, ramp }: BareLook): void {
  pen.write(TISSUE_WORDS.headings[fleshShown], { x: 40, y: 92, size: 19, weight: 600 });
  pen.write(TISSUE_ESTIMATE_WORDS, { x: 40, y: 948, size: 14, colour: pen.colours.soft });
  if (flesh !== null) drawTape(pen, tissueLegend(flesh.map, fleshShown, flesh.area), ramp);
}

/** Lines of the table, from its upper edge on, in thousandths of the picture's height. */
const TABLE = { top: 190, line: 25 } as const;

function drawReadings(pen: Pen, { tape }: BodyState): void {
  pen.write(TAPE_LEAF_WORDS.picture, { x: 40, y: 92, size: 19, weight: 600 });
  tape?.readings.forEach(({ line, girth }, row) => {
    const y = TABLE.top + TABLE.line * row;
    pen.write(tapeName(line), { x: pen.width - 300, y, size: 15 });
    pen.write(girthLabel(girth), { x: pen.width - 40, y, size: 15, align: 'right' });
  });
}
