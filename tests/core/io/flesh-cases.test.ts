import { describe, expect, it } from 'vitest';
import { readFleshCases } from '../../../core/io/flesh-cases.ts';
import { passes } from '../../../core/proof/check.ts';
import { fleshCaseChecks } from '../../../core/proof/flesh-bands.ts';
import { FLESH_CASES } from '../../../core/proof/data/flesh-reference.ts';
import { faultOf } from '../../help/fault-of.ts';

const one = () =>
  structuredClone(FLESH_CASES[0]!) as { id: string; inputs: Record<string, unknown>; nlgeom?: unknown };
const file = (...cases: unknown[]) => JSON.stringify({ what: 'other members are passed over', cases });

describe('cases of pressed flesh', () => {
  it('are read as they stand, whatever else the file holds', () => {
    const cases = readFleshCases(file({ ...FLESH_CASES[0], elements_r_z: [16, 55] }, FLESH_CASES[16]));
    expect(cases.map(({ id }) => id)).toEqual([FLESH_CASES[0]!.id, FLESH_CASES[16]!.id]);
    expect(cases[0]!.inputs).toMatchObject(FLESH_CASES[0]!.inputs);
  });

  it('give the same table as our own, and a wrong figure in them shows', () => {
    const [right, band] = [FLESH_CASES[0]!, FLESH_CASES[16]!];
    const checks = fleshCaseChecks(readFleshCases(file(right, band)));
    expect(checks.map(({ id }) => id)).toContain(`flesh.${band.id}.mean-pressure`);
    expect(checks.every(passes)).toBe(true);
    const wrong = { ...right, nlgeom: { ...right.nlgeom, maxindent: 1.1 * right.nlgeom!.maxindent } };
    const failed = fleshCaseChecks(readFleshCases(file(wrong))).filter((check) => !passes(check));
    expect(failed.map(({ id }) => id)).toContain(`flesh.${right.id}.indent`);
  });

  it('fall back on small displacements where no large ones are given', () => {
    const { nlgeom: _left, ...linear } = FLESH_CASES[0]!;
    const checks = fleshCaseChecks(readFleshCases(file(linear)));
    expect(checks[0]!.expected).toBe(FLESH_CASES[0]!.linear!.maxindent);
    expect(checks[0]!.source).toContain('small');
    expect(checks.every(passes)).toBe(true);
  });

  it.each([
    ['a Poisson ratio out of range', { nu: 0.6 }, 'cases[0].inputs.nu (case P01)', '0.6'],
    ['flesh thicker than the limb', { H: 50 }, 'cases[0].inputs.H (case P01)', '50'],
    ['no pressure', { p: undefined }, 'cases[0].inputs.p (case P01)', 'nothing'],
    ['a band without stiffness', { kind: 'band' }, 'cases[0].inputs.k (case P01)', 'nothing'],
    ['a band that is too wide', { kind: 'band', k: 300, r0: 60 }, 'cases[0].inputs.r0 (case P01)', '60'],
    ['a soft edge of no length', { edge: 'soft' }, 'cases[0].inputs.soft (case P01)', 'nothing'],
    ['an unknown kind', { kind: 'belt' }, 'cases[0].inputs.kind (case P01)', '"belt"'],
  ])('with %s are refused by case and value', (_, change, path, value) => {
    const bad = one();
    Object.assign(bad.inputs, change);
    const fault = faultOf(() => readFleshCases(file(bad)));
    expect(fault.code).toBe('file/wrong-shape');
    expect(fault.facts).toMatchObject({ path, value });
  });

  it('with nothing found, or none at all, are refused', () => {
    const { nlgeom: _n, linear: _l, ...bare } = FLESH_CASES[0]!;
    expect(faultOf(() => readFleshCases(file(bare))).facts).toMatchObject({
      path: 'cases[0].nlgeom (case P01)',
    });
    expect(faultOf(() => readFleshCases(file())).code).toBe('file/wrong-shape');
    expect(faultOf(() => readFleshCases('{')).code).toBe('file/not-json');
  });
});
