import { describe, expect, it } from 'vitest';
import { chooseStudy } from '../../renderer/bridge/choose-study.ts';
import { findBeside } from '../../renderer/bridge/find-beside.ts';

const file = (path: string, text = '{}') => ({ path, bytes: new TextEncoder().encode(text) });

describe('which of the files is the study', () => {
  const bench = file('tern.bench.json', '{"snugfieldBench": 1}');

  it('is told by what is in it', () => {
    const study = file('anything.json', '{"snugfield": 1}');
    expect(chooseStudy([bench, study])).toEqual({ kind: 'found', study });
  });

  it('is the broken one, so that it is explained', () => {
    const broken = file('a.study.json', '{"snugfield": 1,,');
    expect(chooseStudy([bench, broken])).toEqual({ kind: 'found', study: broken });
    const lone = file('whatever.json', 'not json');
    expect(chooseStudy([lone, file('body.obj', 'v 0 0 0')])).toEqual({ kind: 'found', study: lone });
  });

  it('is none of several sheets or pictures', () => {
    expect(chooseStudy([bench, file('plover.bench.json', '{"snugfieldBench": 1}')]).kind).toBe('none');
    expect(chooseStudy([file('photo.png', '…')]).kind).toBe('none');
    expect(chooseStudy([]).kind).toBe('none');
  });

  it('cannot be told where there are two', () => {
    const two = [file('a.json', '{"snugfield": 1}'), file('b.json', '{"snugfield": 1}')];
    expect(chooseStudy(two)).toEqual({ kind: 'several', names: ['a.json', 'b.json'] });
  });
});

describe('the file a study names', () => {
  const files = [file('fabrics/tern.json', 'one'), file('tern.json', 'two'), file('plover.json')];

  it('is the one with the whole path, else the one with that name', () => {
    expect(findBeside(files, 'fabrics/tern.json')).toBe(files[0]);
    expect(findBeside(files, 'cloth/plover.json')).toBe(files[2]);
    expect(findBeside(files, 'gone.json')).toBeNull();
  });
});
