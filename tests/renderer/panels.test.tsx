import { renderToStaticMarkup } from 'react-dom/server';
import type { ReactElement } from 'react';
import { describe, expect, it } from 'vitest';
import { CAUTION_LONG, CAUTION_SHORT } from '../../core/words/judgement-words.ts';
import { createBrowserHost } from '../../renderer/bridge/browser-host.ts';
import { layTable } from '../../renderer/lay-table.ts';
import { FieldWords } from '../../renderer/panels/FieldWords.tsx';
import { GarmentLeaf } from '../../renderer/panels/GarmentLeaf.tsx';
import { HelpLeaf } from '../../renderer/panels/HelpLeaf.tsx';
import { Legend } from '../../renderer/panels/Legend.tsx';
import { NoticeSlip } from '../../renderer/panels/NoticeSlip.tsx';
import { RestBanner } from '../../renderer/panels/RestBanner.tsx';
import { ReviewLeaf } from '../../renderer/panels/ReviewLeaf.tsx';
import { StageFoot } from '../../renderer/panels/StageFoot.tsx';
import { SwatchRail } from '../../renderer/panels/SwatchRail.tsx';
import type { ShownStudy } from '../../renderer/store/study-store.ts';
import { TableContext, type Table } from '../../renderer/table.ts';
import { pretendSettled, pretendSheet } from '../help/pretend-result.ts';

const laid = (): Table =>
  layTable({
    host: createBrowserHost(),
    startWorker: () => ({ post: () => undefined, end: () => undefined }),
    startBodyWorker: () => ({ post: () => undefined, end: () => undefined }),
    startBenchWorker: () => ({ post: () => undefined, end: () => undefined }),
    startSwatchWorker: () => ({ end: () => undefined }),
    startProofWorker: () => ({ end: () => undefined }),
    startImportWorker: () => ({ post: () => undefined, end: () => undefined }),
    now: () => 0,
    takePicture: () => Promise.reject(new Error('no picture in this test')),
    proofPicture: () => Promise.reject(new Error('no picture in this test')),
  });

/** What a panel says, its markup taken away. */
function said(panel: ReactElement, table = laid()): string {
  const markup = renderToStaticMarkup(<TableContext value={table}>{panel}</TableContext>);
  return markup
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/(&nbsp;|\u00a0|\s)+/g, ' ')
    .replaceAll('&#x27;', "'");
}

const shown = (options = {}): ShownStudy => ({
  sheet: pretendSheet,
  settled: pretendSettled(options),
  seconds: 3.2,
  asOpened: pretendSheet,
  tried: {},
  laid: 1,
});

describe('not at rest', () => {
  it('is said across the stage and in the foot, with the number and what to do', () => {
    const restless = shown({ atRest: false });
    // 2e-2 is written 0.020 (see pretendSettled).
    expect(said(<RestBanner shown={restless} />)).toMatch(
      /Not at rest.*A still moves: 0\.020.*Do not use these numbers/,
    );
    expect(said(<StageFoot shown={restless} />)).toContain('NOT AT REST');
  });

  it('names both fabrics beside a difference', () => {
    const table = laid();
    table.actions.toggleDifference();
    expect(said(<RestBanner shown={shown({ atRest: false })} />, table)).toMatch(
      /A and B still move: 0\.020 and 0\.020/,
    );
  });

  it('is not said of what has come to rest', () => {
    expect(said(<RestBanner shown={shown()} />).trim()).toBe('');
    expect(said(<StageFoot shown={shown()} />)).toContain('At rest');
  });
});

describe('the caution', () => {
  it('is in the foot with and without a study', () => {
    expect(said(<StageFoot shown={null} />)).toContain(CAUTION_SHORT);
    expect(said(<StageFoot shown={shown()} />)).toContain(CAUTION_SHORT);
  });

  it('has its long words, none of them empty', () => {
    expect(CAUTION_LONG.length).toBeGreaterThanOrEqual(4);
  });
});

describe('legend', () => {
  it('names the field, both units, and every colour that is not on the ramp', () => {
    const table = laid();
    const study = shown();
    table.actions.lay(study.settled);
    const text = said(<Legend shown={study} />, table);
    for (const word of [
      'Pressure on skin',
      'kPa',
      'mmHg',
      'above 4.0 kPa',
      'below 0.0 kPa',
      'off the skin',
      'cm²',
    ]) {
      expect(text).toContain(word);
    }
  });

  it('tells the band in one line and what it rests on, and nothing of one where there is none', () => {
    const table = laid();
    const study = shown({ banded: { low: -0.12, high: 0.06 } });
    table.actions.lay(study.settled);
    expect(said(<Legend shown={study} />, table)).toMatch(
      /Coupling band here: −12 to \+6 % rests on how the strips narrowed/,
    );
    table.actions.toggleDifference();
    expect(said(<Legend shown={study} />, table)).toMatch(
      /Coupling band here: −0\.\d\d to \+0\.\d\d kPa .*each fabric at its worst end/,
    );
    table.actions.chooseField('gap');
    expect(said(<Legend shown={study} />, table)).not.toContain('band here');
    expect(said(<Legend shown={shown()} />)).not.toContain('band here');
  });

  it('calls the hatch of a gap by its own name', () => {
    const table = laid();
    table.actions.chooseField('gap');
    expect(said(<Legend shown={shown()} />, table)).toContain('on the skin');
  });
});

describe('leaves', () => {
  it('review lists tight places with limit, area and hold, bridges, and the swap', () => {
    const text = said(<ReviewLeaf shown={shown()} />);
    // Made-up field: up to 2.25 kPa on the sides, 3 mm off the skin behind.
    expect(text).toMatch(/From 2\.00 kPa, 15\.0 mmHg up/);
    expect(text).toMatch(/both sides.*2\.3 kPa.*cm², mean 2\.\d kPa · shaping hold/);
    expect(text).toMatch(/back.*3\.0 mm/);
    expect(text).toMatch(/B presses 0\.\d kPa less/);
  });

  it('review tells the band of every pressure', () => {
    const text = said(<ReviewLeaf shown={shown({ banded: { low: -0.12, high: 0.06 } })} />);
    // 2.25 kPa: 12 % below and 6 % above.
    expect(text).toMatch(
      /Highest 2\.3 kPa \(2\.0 to 2\.4\), mean \d\.\d kPa \(\d\.\d to \d\.\d\) where it presses/,
    );
    expect(text).toMatch(/band 2\.0 to 2\.4 · \d+ cm², mean 2\.\d kPa \(\d\.\d to \d\.\d\) · shaping hold/);
    // B is 0.6 of A, and the bands leave zero out.
    expect(text).toMatch(/B presses 0\.\d kPa less at the .*kPa, band \d\.\d to \d\.\d\)/);
  });

  it('review says where A and B cannot be told apart', () => {
    const text = said(<ReviewLeaf shown={shown({ softer: 0.9, banded: { low: -0.12, high: 0.06 } })} />);
    expect(text).toMatch(
      /No sure difference at the .*the band reaches from 0\.\d kPa less to 0\.\d kPa more/,
    );
  });

  it('garment says where it is laid and which way the warp runs', () => {
    expect(said(<GarmentLeaf shown={shown()} />)).toMatch(
      /round the trunk, laid from 90\.0 cm to 114\.0 cm\. Warp runs up/,
    );
  });

  it('help is closed until asked for', () => {
    const table = laid();
    expect(said(<HelpLeaf />, table).trim()).toBe('');
    table.actions.toggleHelp();
    expect(said(<HelpLeaf />, table)).toMatch(/swap fabric A and B/);
  });
});

it('the rail shows each fabric with lot, weight and force, and one sentence', () => {
  const text = said(<SwatchRail shown={shown()} />);
  expect(text).toMatch(/A · first 200 g\/m² · lot 1 4\.0 N at 40 % around.*B · second/);
  expect(text).toMatch(/B presses \d\.\d kPa less at the/);
});

it('every map has a button with its whole name', () => {
  const markup = renderToStaticMarkup(
    <TableContext value={laid()}>
      <FieldWords />
    </TableContext>,
  );
  // As a screen reader has it: from the content, hidden words included, what is hidden from it left out.
  const names = [...markup.matchAll(/<button[^>]*>(.*?)<\/button>/g)].map(([, content]) =>
    content!.replaceAll(/<kbd[^>]*aria-hidden="true"[^>]*>.*?<\/kbd>|<[^>]+>/g, ''),
  );
  expect(names).toEqual([
    'Pressure on skin',
    'Pressure on a disc of 20 mm',
    'Stretch around',
    'Stretch along',
    'Tension around',
    'Tension along',
    'Gap under the cloth',
    'Give of the body',
    'Grip used',
  ]);
});

it('a fault says file, what and remedy', () => {
  const table = laid();
  table.study.setState({ notice: { what: 'It broke.', remedy: 'Mend it.', file: 'a.json', tone: 'fault' } });
  expect(said(<NoticeSlip />, table)).toMatch(/a\.json It broke\. Mend it\..*Put away/);
});
