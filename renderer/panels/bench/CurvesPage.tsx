import { useMemo, useState, type ReactElement } from 'react';
import type { StripUnit } from '../../../core/sheet/strip-chart-trace.ts';
import { stripCharts, type ChartedFabric } from '../../../core/sheet/strip-chart.ts';
import type { FittedFabric } from '../../store/bench-store.ts';
import { useBench, useTable } from '../../table.ts';
import { StripCharts } from './StripCharts.tsx';

/** Measured points, fitted curves and what they miss; of two fabrics where one is set beside. */
export function CurvesPage({ fabric }: { readonly fabric: FittedFabric }): ReactElement | null {
  const { benchDeeds } = useTable();
  const beside = useBench((bench) => bench.beside);
  const [unit, setUnit] = useState<StripUnit>('N/50 mm');
  const charts = useMemo(
    () =>
      stripCharts([...charted(fabric, 'A'), ...(beside === null ? [] : charted(beside.fabric, 'B'))], unit),
    [fabric, beside, unit],
  );
  return (
    <StripCharts
      charts={charts}
      onUnit={setUnit}
      onSavePicture={(png) => void benchDeeds.savePicture(png, 'curves')}
      onSaveText={(csv) => void benchDeeds.saveText(csv, 'curves')}
    />
  );
}

function charted({ sheet, strips, held }: FittedFabric, letter: string): ChartedFabric[] {
  const { name, lot, invented } = sheet;
  return strips === null ? [] : [{ letter, name, lot, invented, strips, held }];
}
