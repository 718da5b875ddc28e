/** The bridged hollow that CalculiX was run on, on the same mesh, in a process of its own; prints the gap at the waist. */
import { hourglassBridging } from '../../core/proof/hourglass-bridging.ts';

console.log(JSON.stringify(hourglassBridging().map(({ id, got, unit }) => ({ id, got, unit }))));
