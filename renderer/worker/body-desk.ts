import type { BodyTape, TapeReading } from '../../core/body/body-tape.ts';
import { ARM_LEVEL_NAMES, LEG_LEVEL_NAMES, TRUNK_LEVEL_NAMES } from '../../core/body/landmarks.ts';
import { measureBody } from '../../core/body/measure-body.ts';
import { bonyPoints } from '../../core/body/tissue-bony.ts';
import { correctedFlesh } from '../../core/body/tissue-correct.ts';
import { tissueMapOf, type TissueCorrections } from '../../core/body/tissue-map.ts';
import { inFile } from '../../core/fault/fault.ts';
import { readSizeChart } from '../../core/io/read-size-chart.ts';
import { vertexAreas } from '../../core/mesh/vertex-areas.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { tissueRows } from '../../core/sheet/tissue-rows.ts';
import type { TapeNotes } from '../../core/study/study.ts';
import type { FromBodyWorker, ShownFlesh, ToBodyWorker } from './body-messages.ts';
import type { KnownBody } from './messages.ts';
import { troubleOf } from './trouble.ts';

/** A body that lies ready to be measured. */
interface LaidBody {
  readonly skin: TriangleMesh;
  readonly known: KnownBody;
  readonly area: Float64Array;
}

/** Answers what is asked of the body that was laid last, one after the other. */
export function createBodyDesk(post: (message: FromBodyWorker) => void): (message: ToBodyWorker) => void {
  let laid: LaidBody | null = null;
  const answer = (message: Exclude<ToBodyWorker, { kind: 'body' }>): void => {
    const { id } = message;
    if (message.kind === 'chart') {
      const chart = inFile(message.name, () => readSizeChart(message.text, plainName(message.name)));
      post({ kind: 'chart', id, chart });
    } else if (laid === null) return;
    else if (message.kind === 'measure') {
      post({ kind: 'measured', id, tape: measured(laid, message.tape) });
    } else post({ kind: 'flesh', id, flesh: fleshOf(laid, message.tissue) });
  };
  return (message) => {
    if (message.kind === 'body') {
      laid = { ...message, area: vertexAreas(message.skin) };
      return;
    }
    try {
      answer(message);
    } catch (error) {
      post({ id: message.id, ...troubleOf(error) });
    }
  };
}

/** `spring.chart.csv` -> `spring`. */
const plainName = (file: string): string => file.replace(/(\.chart)?\.(csv|json|txt)$/i, '');

/** Where nobody stood, landmarks are looked for anew, so that it is said what is missing. */
function measured({ skin, known }: LaidBody, { placed, lines }: TapeNotes): BodyTape {
  const { landmarks, floor, forward } = known;
  const tape = measureBody(skin, {
    ...(known.regions !== null && { known: { landmarks, floor, forward } }),
    placed,
    lines,
  });
  return { ...tape, readings: tape.readings.toSorted((one, other) => placeOf(one) - placeOf(other)) };
}

const ORDER: readonly string[] = [...TRUNK_LEVEL_NAMES, ...LEG_LEVEL_NAMES, ...ARM_LEVEL_NAMES];

/** A tape that was tilted keeps its place in the table; those of the wearer's own come last. */
const placeOf = ({ line }: TapeReading): number =>
  ORDER.includes(line.name) ? ORDER.indexOf(line.name) : ORDER.length;

function fleshOf({ skin, known, area }: LaidBody, tissue: TissueCorrections): ShownFlesh {
  const body = { ...known, skin, ...correctedFlesh({ ...known, skin }, tissue) };
  const map = tissueMapOf(body);
  return { map, bony: bonyPoints(body), rows: tissueRows(map, tissue), area };
}
