/** Whether this browser draws in space at all; numbers, leaves and legend do not need it. */
export function canDraw(): boolean {
  const context = document.createElement('canvas').getContext('webgl2');
  context?.getExtension('WEBGL_lose_context')?.loseContext();
  return context !== null;
}
